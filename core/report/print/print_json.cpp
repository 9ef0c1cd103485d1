#include <cmath>
#include <nlohmann/json.hpp>

#include "core/print/process/table_keys.h"
#include "core/report/check_report.h"
#include "core/report/print/print_json.h"

namespace swingroom {
namespace {

using PrintJson = nlohmann::ordered_json;

PrintJson number(double value) {
  return std::isfinite(value) ? PrintJson(rounded(value)) : nullptr;
}

PrintJson orNull(const std::optional<double>& value) {
  return value ? number(*value) : nullptr;
}

PrintJson place(const Vector3d& p) {
  return {number(p.x()), number(p.y()), number(p.z())};
}

PrintJson sourcedJson(const Sourced& figure, double unit) {
  PrintJson json = {{"value", number(figure.value / unit)}, {"kind", wordFor(figure.kind)}};
  if (!figure.source.empty()) json["source"] = figure.source;
  return json;
}

template <typename Entry, typename Keys>
PrintJson figuresJson(const Entry& entry, const Keys& keys) {
  PrintJson json = PrintJson::object();
  for (const auto& key : keys) json[key.key] = sourcedJson(entry.*key.figure, key.inOurUnit);
  return json;
}

const char* wordFor(PrintedState state) {
  switch (state) {
    case PrintedState::apart:
      return "apart";
    case PrintedState::closes:
      return "closes";
    case PrintedState::contact:
      return "contact";
    case PrintedState::notJudged:
      return "not judged";
  }
  return "";
}

const char* wordFor(FitDuty duty) {
  constexpr const char* words[] = {"turns", "pressed", "slides", "swivels"};
  return words[static_cast<int>(duty)];
}

const char* wordFor(FitShape shape) {
  constexpr const char* words[] = {"not found", "pin in hole", "ball in socket", "guide"};
  return words[static_cast<int>(shape)];
}

const char* wordFor(FrictionModel model) {
  constexpr const char* words[] = {"unknown", "none", "press", "clamp", "ball"};
  return words[static_cast<int>(model)];
}

PrintJson spanJson(const FitSpan& span) {
  return {{"least", number(span.leastMm)}, {"most", number(span.mostMm)}};
}

PrintJson printerSpanJson(const PrinterSpan& span) {
  if (span.empty) return nullptr;
  return {{"from", number(span.from)},
          {"fromLimit", span.fromLimit},
          {"to", number(span.to)},
          {"toLimit", span.toLimit}};
}

/// Writes what the checks found, in their order.
class PrintWriter {
 public:
  explicit PrintWriter(const PrintReport& report)
      : subject_(*report.subject), result_(*report.result) {}

  PrintJson write() const {
    PrintJson json;
    json["passes"] = result_.passes();
    json["processes"] = processes();
    json["materials"] = materials();
    json["findings"] = PrintJson::array();
    for (const PrintFinding& finding : result_.findings)
      json["findings"].push_back(findingJson(finding));
    json["cautions"] = cautionNotes();
    json["asPrinted"] = PrintJson::array();
    for (const PrintedGap& gap : result_.printed.pairs) json["asPrinted"].push_back(gapJson(gap));
    json["printers"] = printers();
    json["joints"] = PrintJson::array();
    for (const FitFigure& fit : result_.fits.fits) json["joints"].push_back(jointJson(fit));
    json["grips"] = PrintJson::array();
    for (const GripFigure& grip : result_.grips.grips) json["grips"].push_back(gripJson(grip));
    json["seams"] = PrintJson::array();
    for (const SeamFigure& seam : result_.seams.seams) json["seams"].push_back(seamJson(seam));
    return json;
  }

 private:
  std::string name(PartId id) const { return subject_.part(id).name; }
  std::string mode(ModeId id) const { return subject_.modes->at(id.index).name; }
  PrintJson names(PartId a, PartId b) const { return {name(a), name(b)}; }

  /// Each that a printed part is made by, once.
  PrintJson processes() const {
    PrintJson json = PrintJson::object();
    for (const PartPrint& print : subject_.parts) {
      const PrintProcess& process = print.process;
      if (!print.printed || json.contains(process.name)) continue;
      json[process.name] = {{"method", wordFor(process.method)},
                            {"bedMm", {process.bedMm[0], process.bedMm[1], process.bedMm[2]}},
                            {"figures", figuresJson(process, processKeys())}};
    }
    return json;
  }

  PrintJson materials() const {
    PrintJson json = PrintJson::object();
    for (const PartPrint& print : subject_.parts) {
      if (!print.printed || json.contains(print.material.name)) continue;
      json[print.material.name] = figuresJson(print.material, materialKeys());
    }
    return json;
  }

  PrintJson findingJson(const PrintFinding& finding) const {
    PrintJson json;
    json["word"] = wordFor(finding.word);
    json["grade"] = finding.grade == PrintGrade::finding ? "finding" : "hint";
    json["parts"] = PrintJson::array();
    for (const PartId id : finding.parts) json["parts"].push_back(name(id));
    json["joint"] = nullptr;
    if (finding.joint) json["joint"] = subject_.assembly->joint(*finding.joint).name;
    json["mode"] = nullptr;
    if (finding.mode) json["mode"] = mode(*finding.mode);
    json["at"] = nullptr;
    if (finding.at_P) json["at"] = place(*finding.at_P);
    json["lower"] = number(finding.lower);
    json["upper"] = number(finding.upper);
    json["needed"] = orNull(finding.needed);
    json["unit"] = finding.unit;
    json["sentence"] = finding.sentence;
    return json;
  }

  PrintJson gapJson(const PrintedGap& gap) const {
    PrintJson json;
    json["parts"] = names(gap.a, gap.b);
    json["state"] = wordFor(gap.state);
    json["growth"] = number(gap.growthMm);
    const bool hasGap = gap.state == PrintedState::apart || gap.state == PrintedState::closes;
    json["lower"] = hasGap ? PrintJson(roundedDown(gap.lowerMm)) : nullptr;
    json["upper"] = hasGap && gap.upperMm ? PrintJson(roundedUp(*gap.upperMm)) : nullptr;
    json["way"] = nullptr;
    json["instant"] = nullptr;
    if (hasGap) {
      json["way"] = subject_.ways->at(gap.way).name;
      json["instant"] = number(gap.instant);
    }
    json["withPlay"] = nullptr;
    if (gap.state == PrintedState::apart) {
      json["withPlay"] = {
          {"lower", roundedDown(gap.playLowerMm)},
          {"upper", gap.playUpperMm ? PrintJson(roundedUp(*gap.playUpperMm)) : nullptr}};
    }
    return json;
  }

  PrintJson printers() const {
    PrintJson json;
    json["growth"] = printerSpanJson(result_.printers.growthMm);
    json["scale"] = printerSpanJson(result_.printers.scale);
    json["expectedGrowth"] = number(result_.printers.expectedGrowthMm);
    json["region"] = PrintJson::array();
    for (const auto& corner : result_.printers.region) {
      json["region"].push_back({number(corner.x()), number(corner.y())});
    }
    return json;
  }

  PrintJson jointJson(const FitFigure& fit) const {
    PrintJson json;
    json["name"] = subject_.assembly->joint(fit.joint).name;
    json["duty"] = wordFor(fit.duty);
    json["fit"] = wordFor(fit.shape);
    if (fit.shape != FitShape::none) {
      json["parts"] = names(fit.pinPart, fit.holePart);
      json["pin"] = number(fit.pinMm);
      json["hole"] = number(fit.holeMm);
      json["length"] = number(fit.lengthMm);
      json["clearance"] = spanJson(fit.clearanceMm);
      json["clearanceAsPrinted"] = spanJson(fit.printedMm);
      json["scatter"] = number(fit.scatterMm);
      json["class"] = wordFor(fit.modelledClass);
      json["classAsPrinted"] = wordFor(fit.printedClass);
      if (fit.isoReference) json["isoReference"] = fit.isoReference->fit;
      if (fit.lip) {
        json["lip"] = {{"lip", number(fit.lip->lipMm)},
                       {"opening", number(fit.lip->openingMm)},
                       {"strain", number(fit.lip->strain)}};
      }
    }
    addPlayAndFriction(fit.joint, json);
    return json;
  }

  void addPlayAndFriction(JointId id, PrintJson& json) const {
    const JointPlay& play = result_.plays.at(id.index);
    if (play.source != PlaySource::unknown) {
      json["play"] = {{"across", number(play.asPrinted.radialMm)},
                      {"tiltDeg", number(degFromRad(play.asPrinted.tiltRad))},
                      {"along", orNull(play.asPrinted.axialMm)}};
    }
    const JointFriction& friction = result_.frictions.at(id.index);
    json["friction"] = {{"model", wordFor(friction.model)},
                        {"low", number(friction.torqueLowNmm)},
                        {"high", number(friction.torqueHighNmm)}};
  }

  PrintJson gripJson(const GripFigure& grip) const {
    PrintJson json;
    json["parts"] = names(grip.a, grip.b);
    json["mode"] = mode(grip.mode);
    json["judged"] = grip.judged;
    json["gap"] = orNull(grip.gapMm);
    json["overlap"] = {{"lower", roundedDown(grip.overlapLowerMm)},
                       {"upper", roundedUp(grip.overlapUpperMm)}};
    json["overlapAsPrinted"] = number(grip.printedMm);
    json["length"] = number(grip.lengthMm);
    json["area"] = number(grip.areaMm2);
    json["strain"] = number(grip.strain);
    json["strainAsPrinted"] = number(grip.printedStrain);
    json["force"] = number(grip.forceN);
    return json;
  }

  PrintJson seamJson(const SeamFigure& seam) const {
    PrintJson json;
    json["parts"] = names(seam.a, seam.b);
    json["mode"] = mode(seam.mode);
    json["growth"] = number(seam.growthMm);
    json["lines"] = PrintJson::array();
    for (const SeamLine& line : seam.lines) {
      json["lines"].push_back(
          {{"length", number(line.lengthMm)},
           {"seen", line.visible},
           {"leastGap", number(line.leastGapMm)},
           {"largestGap",
            {{"lower", roundedDown(line.gapLowerMm)}, {"upper", roundedUp(line.gapUpperMm)}}},
           {"meanStep", number(line.meanStepMm)},
           {"largestStep", number(line.largestStepMm)}});
    }
    return json;
  }

  const PrintSubject& subject_;
  const PrintResult& result_;
};

}  // namespace

std::string printJson(const PrintReport& report) {
  return PrintWriter(report).write().dump();
}

}  // namespace swingroom
