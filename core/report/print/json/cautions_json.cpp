#include "core/report/print/json/json_sections.h"
#include "core/report/print/json/json_values.h"
#include "core/report/print/print_words.h"

namespace swingroom::print_json {
namespace {

PrintJson sharpJson(const SharpEdges& sharp) {
  PrintJson json;
  json["edges"] = sharp.edges;
  json["lengthMm"] = number(sharp.lengthMm);
  json["leastDeg"] = sharp.edges > 0 ? number(degFromRad(sharp.leastRad)) : nullptr;
  json["at"] = sharp.sharpest_P ? place(*sharp.sharpest_P) : nullptr;
  json["points"] = sharp.points;
  json["pointAt"] = sharp.point_P ? place(*sharp.point_P) : nullptr;
  return json;
}

PrintJson partJson(const PrintSubject& subject, const PartCautions& part) {
  PrintJson json;
  json["part"] = subject.part(part.part).name;
  json["fitsSmallPartsCylinder"] = wordFor(part.fitsSmallParts);
  json["ballLike"] = part.ballLike;
  json["passesBallHole"] = part.ballLike ? PrintJson(wordFor(part.passesBallHole)) : nullptr;
  json["sharp"] = sharpJson(part.sharp);
  return json;
}

PrintJson openingJson(const PrintSubject& subject, const FingerGap& gap) {
  PrintJson json;
  json["parts"] = {subject.part(gap.a).name, subject.part(gap.b).name};
  json["place"] = wordFor(gap.place);
  json["way"] = subject.ways->at(gap.way).name;
  json["from"] = number(gap.from);
  json["to"] = number(gap.to);
  json["leastMm"] = number(gap.leastMm);
  json["mostMm"] = number(gap.mostMm);
  json["instant"] = number(gap.instant);
  json["at"] = place(gap.at_W);
  return json;
}

}  // namespace

PrintJson cautionsJson(const PrintReport& report) {
  const CautionsResult& cautions = report.result->cautions;
  PrintJson json;
  json["notes"] = cautionNotes();
  json["smallParts"] = {{"clause", "16 CFR 1501.4"},
                        {"fit", cautions.count(PassAnswer::yes)},
                        {"mayFit", cautions.count(PassAnswer::maybe)},
                        {"of", cautions.parts.size()}};
  json["parts"] = PrintJson::array();
  for (const PartCautions& part : cautions.parts) {
    json["parts"].push_back(partJson(*report.subject, part));
  }
  const FingerRods rods;
  json["openings"] = {{"clause", "EN 71-1 4.10"},
                      {"fromMm", rods.thinMm},
                      {"belowMm", rods.thickMm},
                      {"found", PrintJson::array()}};
  for (const FingerGap& gap : cautions.fingerGaps) {
    json["openings"]["found"].push_back(openingJson(*report.subject, gap));
  }
  return json;
}

}  // namespace swingroom::print_json
