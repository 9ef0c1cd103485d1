#include "core/report/print/json/json_sections.h"
#include "core/report/print/json/json_values.h"
#include "core/report/print/print_words.h"

namespace swingroom::print_json {
namespace {

PrintJson spanJson(const FitSpan& span) {
  return {{"least", down(span.leastMm)}, {"most", up(span.mostMm)}};
}

PrintJson pairNamesJson(const PrintSubject& subject, PartId a, PartId b) {
  return {subject.part(a).name, subject.part(b).name};
}

PrintJson isoJson(const IsoReference& iso) {
  return {{"fit", iso.fit},
          {"name", iso.name},
          {"leastMm", number(iso.leastMm)},
          {"mostMm", number(iso.mostMm)}};
}

void addFit(const PrintSubject& subject, const FitFigure& fit, PrintJson& json) {
  json["parts"] = pairNamesJson(subject, fit.pinPart, fit.holePart);
  const bool round = fit.shape != FitShape::guide;
  json["pinMm"] = round ? number(fit.pinMm) : nullptr;
  json["holeMm"] = round ? number(fit.holeMm) : nullptr;
  json["lengthMm"] = number(fit.lengthMm);
  json["clearanceMm"] = spanJson(fit.clearanceMm);
  json["clearanceAsPrintedMm"] = spanJson(fit.printedMm);
  json["scatterMm"] = number(fit.scatterMm);
  json["class"] = wordFor(fit.modelledClass);
  json["classAsPrinted"] = wordFor(fit.printedClass);
  json["isoReference"] = fit.isoReference ? isoJson(*fit.isoReference) : PrintJson(nullptr);
  if (fit.lip) {
    json["lip"] = {{"lipMm", number(fit.lip->lipMm)},
                   {"openingMm", number(fit.lip->openingMm)},
                   {"strain", number(fit.lip->strain)}};
  }
  if (fit.head) {
    json["head"] = {{"headMm", number(fit.head->headMm)},
                    {"holeMm", number(fit.head->holeMm)},
                    {"strain", number(fit.head->strain)}};
  }
}

PrintJson jointJson(const PrintReport& report, const FitFigure& fit) {
  PrintJson json;
  json["name"] = report.subject->assembly->joint(fit.joint).name;
  json["duty"] = wordFor(fit.duty);
  json["fit"] = wordFor(fit.shape);
  if (fit.shape != FitShape::none) addFit(*report.subject, fit, json);
  const JointPlay& play = report.result->plays.at(fit.joint.index);
  json["play"] = nullptr;
  if (play.source != PlaySource::unknown) {
    json["play"] = {{"source", play.source == PlaySource::fit ? "fit" : "file"},
                    {"acrossMm", number(play.asPrinted.radialMm)},
                    {"tiltDeg", number(degFromRad(play.asPrinted.tiltRad))},
                    {"alongMm", orNull(play.asPrinted.axialMm)}};
  }
  const JointFriction& friction = report.result->frictions.at(fit.joint.index);
  json["friction"] = {{"model", wordFor(friction.model)},
                      {"lowNMm", down(friction.torqueLowNmm)},
                      {"highNMm", up(friction.torqueHighNmm)}};
  return json;
}

PrintJson gripJson(const PrintSubject& subject, const GripFigure& grip) {
  PrintJson json;
  json["parts"] = pairNamesJson(subject, grip.a, grip.b);
  json["mode"] = subject.modes->at(grip.mode.index).name;
  json["judged"] = grip.judged;
  json["gapMm"] = orNull(grip.gapMm);
  json["overlapMm"] = bracketJson(grip.overlapLowerMm, grip.overlapUpperMm);
  json["overlapAsPrintedMm"] = number(grip.printedMm);
  json["scatterMm"] = number(grip.scatterMm);
  json["lengthMm"] = number(grip.lengthMm);
  json["areaMm2"] = number(grip.areaMm2);
  json["strain"] = number(grip.strain);
  json["strainAsPrinted"] = number(grip.printedStrain);
  json["forceN"] = number(grip.forceN);
  return json;
}

PrintJson seamJson(const PrintSubject& subject, const SeamFigure& seam) {
  PrintJson json;
  json["parts"] = pairNamesJson(subject, seam.a, seam.b);
  json["mode"] = subject.modes->at(seam.mode.index).name;
  json["growthMm"] = number(seam.growthMm);
  json["scatterMm"] = number(seam.scatterMm);
  json["lines"] = PrintJson::array();
  for (const SeamLine& line : seam.lines) {
    json["lines"].push_back({{"lengthMm", number(line.lengthMm)},
                             {"seen", line.visible},
                             {"leastGapMm", number(line.leastGapMm)},
                             {"largestGapMm", bracketJson(line.gapLowerMm, line.gapUpperMm)},
                             {"meanStepMm", number(line.meanStepMm)},
                             {"largestStepMm", number(line.largestStepMm)}});
  }
  return json;
}

}  // namespace

PrintJson jointsJson(const PrintReport& report) {
  PrintJson json = PrintJson::array();
  for (const FitFigure& fit : report.result->fits.fits) json.push_back(jointJson(report, fit));
  return json;
}

PrintJson gripsJson(const PrintReport& report) {
  PrintJson json = PrintJson::array();
  for (const GripFigure& grip : report.result->grips.grips) {
    json.push_back(gripJson(*report.subject, grip));
  }
  return json;
}

PrintJson seamsJson(const PrintReport& report) {
  PrintJson json = PrintJson::array();
  for (const SeamFigure& seam : report.result->seams.seams) {
    json.push_back(seamJson(*report.subject, seam));
  }
  return json;
}

}  // namespace swingroom::print_json
