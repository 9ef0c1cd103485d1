#include "core/report/print/json/json_sections.h"
#include "core/report/print/json/json_values.h"
#include "core/report/print/print_words.h"

namespace swingroom::print_json {
namespace {

PrintJson massJson(double lowerG, double massG, double upperG) {
  return {{"lower", down(lowerG)}, {"value", number(massG)}, {"upper", up(upperG)}};
}

PrintJson partMassJson(const std::string& part, const PartMass& mass) {
  PrintJson json;
  json["part"] = part;
  json["model"] = wordFor(mass.model);
  json["volumeMm3"] = mass.known() ? number(mass.volumeMm3) : nullptr;
  json["massG"] = mass.known() ? massJson(mass.lowerG, mass.massG, mass.upperG) : nullptr;
  json["centre"] = mass.known() ? place(mass.centre_P) : nullptr;
  json["centreOffMm"] = mass.known() ? up(mass.centreOffMm) : nullptr;
  return json;
}

PrintJson hungJson(const HungMass& mass) {
  PrintJson json;
  json["massG"] = massJson(mass.lowerG, mass.massG, mass.upperG);
  json["centre"] = place(mass.centre_W);
  json["centreOffMm"] = up(mass.centreOffMm);
  json["unknownParts"] = mass.unknown;
  return json;
}

/// Its figures carry the unit of what gravity does there: a torque, of a slide a force.
PrintJson holdJson(const PrintSubject& subject, const JointHold& hold) {
  const Joint& joint = subject.assembly->joint(hold.joint);
  const std::string unit = joint.type == JointType::slide ? "N" : "NMm";
  PrintJson json;
  json["joint"] = joint.name;
  json["parts"] = {subject.part(hold.child).name, subject.part(hold.parent).name};
  json["heldBy"] = wordFor(hold.kind);
  json["hungG"] = massJson(hold.hung.lowerG, hold.hung.massG, hold.hung.upperG);
  json["load" + unit] = {{"lower", down(hold.loadLower)},
                         {"value", number(hold.load)},
                         {"upper", up(hold.loadUpper)}};
  json["shared"] = hold.shared;
  json["needed" + unit] = bracketJson(std::max(0.0, 2 * hold.needed - hold.neededUpper),
                                      hold.neededUpper);
  json["holds" + unit] = bracketJson(hold.holdsLow, hold.holdsHigh);
  const auto margin = holdMarginOf(hold);
  json["margin" + unit] = margin ? bracketJson(margin->lower, margin->upper) : nullptr;
  json["gives"] = nullptr;
  if (hold.way) {
    const bool slides = joint.type == JointType::slide;
    json["gives"] = {{slides ? "byMm" : "byDeg",
                      number(slides ? hold.way->by : degFromRad(hold.way->by))}};
  }
  return json;
}

PrintJson worstJson(const PrintSubject& subject, const WorstLoad& worst) {
  const Joint& joint = subject.assembly->joint(worst.joint);
  const std::string unit = joint.type == JointType::slide ? "N" : "NMm";
  PrintJson json;
  json["joint"] = joint.name;
  json["load" + unit] = bracketJson(std::max(0.0, worst.lower - worst.offBy),
                                    worst.upper + worst.offBy);
  json["way"] = subject.ways->at(worst.way).name;
  json["instant"] = number(worst.instant);
  json["unheld" + unit] = number(worst.unheld);
  return json;
}

PrintJson modeJson(const PrintReport& report, const ModeWeight& mode) {
  PrintJson json;
  json["mode"] = report.subject->modes->at(mode.mode.index).name;
  json["inHand"] = mode.inHand;
  json["stand"] = standJson(report, mode.standing);
  json["joints"] = PrintJson::array();
  for (const JointHold& hold : mode.joints) {
    json["joints"].push_back(holdJson(*report.subject, hold));
  }
  return json;
}

}  // namespace

PrintJson standJson(const PrintReport& report, const FigureStand& standing) {
  const bool known = standing.kind != StandKind::unknown;
  const bool hasEdges = !standing.edges.empty();
  PrintJson json;
  json["kind"] = wordFor(standing.kind);
  json["on"] = PrintJson::array();
  for (const PartId part : standing.on) json["on"].push_back(report.subject->part(part).name);
  json["support"] = PrintJson::array();
  for (const TipEdge& edge : standing.edges) json["support"].push_back(place(edge.from_W));
  json["centre"] = known ? place(standing.mass.centre_W) : nullptr;
  json["heightMm"] = known ? number(standing.heightMm) : nullptr;
  json["marginMm"] = nullptr;
  json["tipDeg"] = nullptr;
  json["tips"] = nullptr;
  if (known && hasEdges) {
    json["marginMm"] = bracketJson(standing.marginMm - standing.marginOffMm,
                                   standing.marginMm + standing.marginOffMm);
    json["tipDeg"] = number(degFromRad(standing.leastTipRad));
    json["tips"] = place(standing.falls_W);
  }
  json["floorMm"] = known ? number(standing.floorMm) : nullptr;
  return json;
}

PrintJson weightJson(const PrintReport& report) {
  const WeightResult& weight = report.result->weight;
  PrintJson json;
  json["parts"] = PrintJson::array();
  for (std::size_t p = 0; p < weight.masses.size(); ++p) {
    json["parts"].push_back(
        partMassJson(report.subject->part(PartId{p}).name, weight.masses[p]));
  }
  json["whole"] = hungJson(weight.whole);
  json["modes"] = PrintJson::array();
  for (const ModeWeight& mode : weight.modes) json["modes"].push_back(modeJson(report, mode));
  json["worstOnTheWay"] = PrintJson::array();
  for (const WorstLoad& worst : weight.worst) {
    json["worstOnTheWay"].push_back(worstJson(*report.subject, worst));
  }
  return json;
}

}  // namespace swingroom::print_json
