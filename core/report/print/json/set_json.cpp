#include "core/report/print/json/json_sections.h"
#include "core/report/print/json/json_values.h"
#include "core/report/print/print_words.h"

namespace swingroom::print_json {
namespace {

PrintJson pieceMassJson(const PieceMass& mass) {
  return {{"lower", down(mass.lowerG)}, {"value", number(mass.massG)}, {"upper", up(mass.upperG)}};
}

PrintJson bedStandJson(const BedStand& stand) {
  PrintJson json;
  json["turn"] = turnJson(stand.R_BP);
  json["sizeMm"] = place(stand.sizeMm);
  json["fits"] = stand.fits;
  json["contactMm2"] = number(stand.contactMm2);
  json["supportMm2"] = number(stand.supportMm2);
  json["bridgedMm2"] = number(stand.bridgedMm2);
  json["roughMm2"] = number(stand.roughMm2);
  json["scarMm2"] = number(stand.scarMm2);
  json["pinsUpright"] = stand.pinsUpright;
  json["tabsUpright"] = stand.tabsUpright;
  json["trappedMm3"] = number(stand.trappedMm3);
  return json;
}

PrintJson bedJson(const BedFit& fit) {
  PrintJson json;
  json["verdict"] = wordFor(fit.verdict);
  json["turn"] = turnJson(fit.R_BP);
  json["sizeMm"] = place(fit.sizeMm);
  json["overMm"] = bracketJson(fit.overLowerMm, fit.overUpperMm);
  return json;
}

PrintJson itemJson(const PrintReport& report, const SetItem& item) {
  PrintJson json;
  json["name"] = item.name;
  json["parts"] = PrintJson::array();
  for (const PartId part : item.parts) json["parts"].push_back(report.subject->part(part).name);
  json["count"] = item.count;
  json["printed"] = item.printed;
  json["jointPin"] = item.isJointPin;
  json["mirrorOf"] = nullptr;
  if (item.mirrorOf) json["mirrorOf"] = report.result->set.items.at(*item.mirrorOf).name;
  json["process"] = item.process;
  json["material"] = item.material;
  json["colour"] = item.colour;
  json["sizeMm"] = item.hasMesh ? place(item.sizeMm) : nullptr;
  json["volumeMm3"] = orNull(item.volumeMm3);
  json["massG"] = item.mass ? pieceMassJson(*item.mass) : nullptr;
  json["filamentMm"] = item.strandMm > 0 ? number(item.strandMm) : nullptr;
  json["bed"] = item.printed && item.hasMesh ? bedJson(item.fit) : nullptr;
  json["stands"] = PrintJson::array();
  for (const BedStand& stand : item.stands) json["stands"].push_back(bedStandJson(stand));
  json["hollows"] = PrintJson::array();
  for (const Hollow& hollow : item.hollows) {
    json["hollows"].push_back({{"kind", wordFor(hollow.kind)},
                               {"volumeMm3", number(hollow.volumeMm3)},
                               {"at", place(hollow.middle_P)}});
  }
  return json;
}

PrintJson loadJson(const PrintSet& set, const BedLoad& load) {
  PrintJson json;
  json["process"] = load.process;
  json["material"] = load.material;
  json["colour"] = load.colour;
  json["pieces"] = PrintJson::array();
  for (const LoadedPiece& piece : load.pieces) {
    json["pieces"].push_back({{"name", set.items.at(piece.item).name},
                              {"at", place(piece.p_BP)},
                              {"turn", turnJson(piece.R_BP)}});
  }
  return json;
}

PrintJson totalsJson(const SetTotals& totals) {
  PrintJson json;
  json["pieces"] = totals.pieces;
  json["bought"] = totals.bought;
  json["notLaid"] = totals.notLaid;
  json["loads"] = totals.loads;
  json["volumeMm3"] = number(totals.volumeMm3);
  json["massG"] = pieceMassJson(totals.mass);
  json["filamentMm"] = number(totals.strandMm);
  json["massUnknown"] = totals.massUnknown;
  return json;
}

}  // namespace

PrintJson setJson(const PrintReport& report) {
  const PrintSet& set = report.result->set;
  PrintJson json;
  json["items"] = PrintJson::array();
  for (const SetItem& item : set.items) json["items"].push_back(itemJson(report, item));
  json["loads"] = PrintJson::array();
  for (const BedLoad& load : set.loads) json["loads"].push_back(loadJson(set, load));
  json["totals"] = totalsJson(set.totals);
  json["assembledPieces"] = set.assembledPieces;
  json["jointPins"] = set.jointPins;
  return json;
}

}  // namespace swingroom::print_json
