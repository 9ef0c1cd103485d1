#include <algorithm>
#include <cmath>
#include <cstdio>

#include "core/print/joints/fits.h"
#include "core/print/joints/fit_press.h"

namespace swingroom {
namespace {

constexpr double kUnwantedMm = 0.05;

template <typename... Figures>
std::string fitText(const char* format, Figures... figures) {
  char text[300];
  std::snprintf(text, sizeof text, format, figures...);
  return text;
}

class FitJudge {
 public:
  FitJudge(const PrintSubject& subject, const FitFigure& fit, PrintFindings& findings)
      : subject_(subject), fit_(fit), findings_(findings) {}

  void judge() {
    if (fit_.shape == FitShape::none) return;
    if (fit_.duty == FitDuty::pressed || holdsByFriction())
      pressed();
    else
      moving();
    wanted();
    lip();
    head();
  }

 private:
  const PartPrint& pinPrint() const { return subject_.print(fit_.pinPart); }
  const PartPrint& holePrint() const { return subject_.print(fit_.holePart); }
  const Joint& joint() const { return subject_.assembly->joint(fit_.joint); }
  /// Something of the fit gives way by design.
  bool isSoft() const { return pinPrint().material.soft || holePrint().material.soft; }

  /// It has to turn, and to stay where it is put: the maker wants no clearance.
  bool holdsByFriction() const {
    const bool turns = fit_.duty == FitDuty::turns || fit_.duty == FitDuty::swivels;
    return turns && joint().fitMm && *joint().fitMm <= 0;
  }

  /// The stricter of the two prints' figures; bought parts say nothing.
  double strictest(const Sourced PrintProcess::*figure, bool largest) const {
    std::optional<double> value;
    for (const PartPrint* print : {&pinPrint(), &holePrint()}) {
      if (!print->printed) continue;
      const double v = (print->process.*figure).value;
      value = !value ? v : largest ? std::max(*value, v) : std::min(*value, v);
    }
    return value.value_or(0);
  }

  void add(PrintWord word, PrintGrade grade, double lower, double upper,
           std::optional<double> needed, const char* unit, std::string sentence) {
    PrintFinding finding;
    finding.word = word;
    finding.grade = grade;
    finding.parts = {fit_.pinPart, fit_.holePart};
    finding.joint = fit_.joint;
    finding.mode = fit_.mode;
    finding.at_P = placeOnPin();
    finding.lower = std::min(lower, upper);
    finding.upper = std::max(lower, upper);
    finding.needed = needed;
    finding.unit = unit;
    finding.sentence = std::move(sentence);
    findings_.push_back(std::move(finding));
  }

  std::optional<Vector3d> placeOnPin() const {
    const Assembly& assembly = *subject_.assembly;
    Configuration standing =
        fit_.mode ? (*subject_.modes)[fit_.mode->index].configuration : assembly.home();
    if (findRing(assembly, standing)) return std::nullopt;
    return posesOf(assembly, standing)[fit_.pinPart.index].inverse() * fit_.at_W;
  }

  static double scatterOf(const PartPrint& print) {
    return print.printed ? print.process.scatterMm.value : 0;
  }

  const char* measured() const {
    return fit_.shape == FitShape::guide ? "both sides together" : "on the diameter";
  }

  void moving() {
    const double least = fit_.clearanceMm.leastMm;
    const double printed = fit_.printedMm.leastMm;
    // Flat faces are judged a side, and their clearance is that of two sides.
    const double needed = fit_.shape == FitShape::guide
                              ? 2 * strictest(&PrintProcess::leastGapMm, true)
                              : strictest(&PrintProcess::leastPinClearanceMm, true);
    if (printed <= 0) {
      add(PrintWord::tightFit, PrintGrade::finding, least, least, needed, "mm",
          fitText("%.2f mm of clearance as modelled is %.2f as printed, %s: it binds", least,
                  printed, measured()));
    } else if (least < needed - kExactMm) {
      add(PrintWord::tightFit, PrintGrade::finding, least, least, needed, "mm",
          fitText("%.2f mm of clearance as modelled, %s (about %.2f as printed); %.2f is the least "
                  "that moves",
                  least, measured(), printed, needed));
    }
    if (fit_.duty != FitDuty::turns) return;
    const double most = strictest(&PrintProcess::mostPinClearanceMm, false);
    if (most > 0 && least > most + kExactMm) {
      add(PrintWord::looseFit, PrintGrade::finding, least, fit_.clearanceMm.mostMm, most, "mm",
          fitText("%.2f mm of clearance as modelled, on the diameter; above %.2f the joint flops",
                  least, most));
    }
  }

  void pressed() {
    if (isSoft()) return;
    pressStrain();
    if (joint().fitMm.value_or(-1) > 0 || fit_.gripped) return;
    const double printed = fit_.printedMm.leastMm;
    // Two prints, each off by its own scatter whatever the other's is.
    const double prints = std::hypot(scatterOf(pinPrint()), scatterOf(holePrint()));
    if (printed >= 0) {
      add(PrintWord::looseFit, PrintGrade::finding, printed, fit_.printedMm.mostMm, 0, "mm",
          fitText("%.2f mm of clearance as modelled is %.2f as printed, on the diameter: nothing "
                  "holds %s",
                  fit_.clearanceMm.leastMm, printed, whatIsHeld()));
    } else if (printed + prints > 0) {
      add(PrintWord::looseFit, PrintGrade::hint, printed, fit_.printedMm.mostMm, 0, "mm",
          fitText("%.2f mm of interference as printed, on the diameter, is less than two prints "
                  "differ by, %.2f: in some nothing holds %s",
                  -printed, prints, whatIsHeld()));
    }
  }

  const char* whatIsHeld() const {
    return fit_.duty == FitDuty::pressed ? "the pin in its hole" : "the joint where it is put";
  }

  /// Of the wall round a pressed pin.
  void pressStrain() {
    if (fit_.hubMm <= fit_.pinMm || fit_.openShare > 0 || !holePrint().printed) return;
    const double most = holePrint().material.strainOnce.value;
    const double modelled = wallStrain(-fit_.clearanceMm.leastMm);
    const double printed = wallStrain(-fit_.printedMm.leastMm);
    if (printed <= most) return;
    const bool asModelled = modelled > most;
    const double strain = asModelled ? modelled : printed;
    add(PrintWord::strained, asModelled ? PrintGrade::finding : PrintGrade::hint, 100 * strain,
        100 * strain, 100 * most, "%",
        fitText("%.2f mm of interference %s, on the diameter, strain the wall round the %s by "
                "%.1f %%; %.1f %% is what %s takes once",
                -(asModelled ? fit_.clearanceMm.leastMm : fit_.printedMm.leastMm),
                asModelled ? "as modelled" : "as printed",
                fit_.shape == FitShape::ball ? "ball" : "pin", 100 * strain, 100 * most,
                holePrint().material.name.c_str()));
  }

  double wallStrain(double interferenceMm) const {
    return hubStrain(pressOf(subject_, fit_, interferenceMm));
  }

  void wanted() {
    if (!joint().fitMm || fit_.shape == FitShape::guide) return;
    const double want = *joint().fitMm;
    const FitSpan& found = fit_.clearanceMm;
    const double off = std::max({0.0, found.leastMm - want, want - found.mostMm});
    // The facets' share is the mesh's, not the design's.
    if (off <= kUnwantedMm + (found.mostMm - found.leastMm) + kExactMm) return;
    add(PrintWord::unwantedFit, PrintGrade::finding, found.leastMm, found.mostMm, want, "mm",
        fitText("%.2f to %.2f mm of clearance on the diameter as modelled; %.2f is wanted",
                found.leastMm, found.mostMm, want));
  }

  /// The ring is the socket's or the hole's: its material decides.
  void strain(double strain, bool slotted, std::string what) {
    if (!holePrint().printed || isSoft()) return;
    const double most = holePrint().material.strainOnce.value;
    if (strain <= most) return;
    what += fitText(": %.1f %% of strain in a whole ring; %.1f %% is what %s takes once",
                    100 * strain, 100 * most, holePrint().material.name.c_str());
    if (slotted) what += "; it is slotted, so that it strains less than a ring";
    add(PrintWord::strained, slotted ? PrintGrade::hint : PrintGrade::finding, 100 * strain,
        100 * strain, 100 * most, "%", std::move(what));
  }

  void lip() {
    if (!fit_.lip) return;
    strain(fit_.lip->strain, fit_.lip->slotted(),
           fitText("a ball of %.2f mm is snapped through an opening of %.2f", fit_.pinMm,
                   fit_.lip->openingMm));
  }

  void head() {
    if (!fit_.head) return;
    // What gives is round the head: the slotted peg itself bends.
    strain(fit_.head->strain, fit_.head->slotted || fit_.head->inSlot,
           fitText("a head of %.2f mm is pushed through a %s of %.2f", fit_.head->headMm,
                   fit_.head->inSlot ? "slot" : "hole", fit_.head->holeMm));
  }

  static constexpr double kExactMm = 0.005;  // What meshes' rounding may do to a figure.

  const PrintSubject& subject_;
  const FitFigure& fit_;
  PrintFindings& findings_;
};

}  // namespace

void addFitFindings(const PrintSubject& subject, const FitsResult& result,
                    PrintFindings& findings) {
  for (const FitFigure& fit : result.fits) FitJudge(subject, fit, findings).judge();
}

}  // namespace swingroom
