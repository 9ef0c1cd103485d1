#include "core/report/print/json/json_sections.h"
#include "core/report/print/json/json_values.h"
#include "core/report/print/print_words.h"

namespace swingroom::print_json {
namespace {

PrintJson spotJson(const ThinSpot& spot) {
  PrintJson json;
  json["kind"] = wordFor(spot.kind);
  json["thicknessMm"] = bracketJson(spot.lowerMm, spot.upperMm);
  json["at"] = place(spot.at_P);
  json["free"] = spot.free;
  json["acrossMm"] = spot.kind == WallKind::neck ? number(spot.acrossMm) : nullptr;
  json["areaMm2"] = number(spot.areaMm2);
  return json;
}

PrintJson wallJson(const std::string& part, const WallMap& map) {
  PrintJson json;
  json["part"] = part;
  json["judged"] = map.judged;
  json["why"] = map.judged ? PrintJson(nullptr) : PrintJson(map.whyNot);
  const ThinSpot* thinnest = thinnestOf(map);
  json["leastMm"] = nullptr;
  if (thinnest && map.leastLowerMm) {
    json["leastMm"] = bracketJson(*map.leastLowerMm, *map.leastUpperMm);
  }
  json["kind"] = thinnest ? PrintJson(wordFor(thinnest->kind)) : PrintJson(nullptr);
  json["at"] = thinnest ? place(thinnest->at_P) : PrintJson(nullptr);
  json["lookedToMm"] = number(map.mostMm);
  json["spots"] = PrintJson::array();
  for (const ThinSpot& spot : map.spots) json["spots"].push_back(spotJson(spot));
  json["pins"] = PrintJson::array();
  for (const PinFigure& pin : map.pins) {
    json["pins"].push_back({{"diameterMm", number(pin.diameterMm)},
                            {"lengthMm", number(pin.lengthMm)},
                            {"at", place(pin.middle_P)}});
  }
  json["edges"] = PrintJson::array();
  for (const BladeEdge& blade : map.blades) {
    json["edges"].push_back({{"lengthMm", number(blade.lengthMm)},
                             {"openingDeg", number(degFromRad(blade.openingRad))},
                             {"at", place(blade.at_P)}});
  }
  return json;
}

}  // namespace

PrintJson wallsJson(const PrintReport& report) {
  PrintJson json = PrintJson::array();
  const auto& maps = report.result->walls.maps;
  for (std::size_t p = 0; p < maps.size(); ++p) {
    if (maps[p]) json.push_back(wallJson(report.subject->part(PartId{p}).name, *maps[p]));
  }
  return json;
}

}  // namespace swingroom::print_json
