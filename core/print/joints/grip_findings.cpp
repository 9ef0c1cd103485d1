#include <algorithm>
#include <cstdio>

#include "core/print/joints/grips.h"

namespace swingroom {
namespace {

template <typename... Figures>
std::string gripText(const char* format, Figures... figures) {
  char text[300];
  std::snprintf(text, sizeof text, format, figures...);
  return text;
}

class GripJudge {
 public:
  GripJudge(const PrintSubject& subject, const GripFigure& grip, PrintFindings& findings)
      : subject_(subject), grip_(grip), findings_(findings) {}

  void judge() {
    const double fine = subject_.assembly->resolutionMm();
    if (!grip_.gapMm) {
      add(PrintWord::loose, PrintGrade::finding, 0, 0, "mm",
          "one of the two has no surface at the grip's place: nothing holds");
    } else if (*grip_.gapMm > fine) {
      apart();
    } else if (grip_.judged) {
      touching(fine);
    }
  }

 private:
  void add(PrintWord word, PrintGrade grade, double lower, double upper, const char* unit,
           std::string sentence, std::optional<double> needed = {}) {
    PrintFinding finding;
    finding.word = word;
    finding.grade = grade;
    finding.parts = {grip_.a, grip_.b};
    finding.mode = grip_.mode;
    if (grip_.areaMm2 > 0) finding.at_P = grip_.at_A;
    finding.lower = lower;
    finding.upper = upper;
    finding.needed = needed;
    finding.unit = unit;
    finding.sentence = std::move(sentence);
    findings_.push_back(std::move(finding));
  }

  void apart() {
    const double gap = *grip_.gapMm;
    std::string text = gripText("%.2f mm apart as modelled where they have to grip", gap);
    text += grip_.printedMm > 0 ? gripText("; %.2f mm of overlap as printed", grip_.printedMm)
                                : gripText("; %.2f mm apart as printed", -grip_.printedMm);
    add(PrintWord::loose, PrintGrade::finding, gap, gap, "mm", text, 0.0);
  }

  void touching(double fine) {
    const double lower = grip_.overlapLowerMm, upper = grip_.overlapUpperMm;
    if (grip_.wantedMm && upper < grip_.wantedMm->leastMm - fine) {
      add(PrintWord::loose, PrintGrade::finding, lower, upper, "mm",
          gripText("%.2f mm of overlap a side as modelled; at least %.2f is wanted", upper,
                   grip_.wantedMm->leastMm),
          grip_.wantedMm->leastMm);
    } else if (grip_.printedMm <= grip_.scatterMm) {
      add(PrintWord::loose, PrintGrade::hint, grip_.printedMm, grip_.printedMm, "mm",
          gripText("%.2f mm of overlap a side as printed is no more than two prints differ by, "
                   "%.2f: some do not hold",
                   grip_.printedMm, grip_.scatterMm),
          grip_.scatterMm);
    }
    if (grip_.wantedMm && lower > grip_.wantedMm->mostMm + fine) {
      add(PrintWord::overPressed, PrintGrade::finding, lower, upper, "mm",
          gripText("%.2f mm of overlap a side as modelled; at most %.2f is wanted", lower,
                   grip_.wantedMm->mostMm),
          grip_.wantedMm->mostMm);
    } else {
      strained();
    }
  }

  void strained() {
    const PartPrint &a = subject_.print(grip_.a), &b = subject_.print(grip_.b);
    if (a.material.soft || b.material.soft) return;
    const PartPrint& weaker = a.material.strainOnce.value <= b.material.strainOnce.value ? a : b;
    const double most = weaker.material.strainOnce.value;
    if (grip_.printedStrain <= most) return;
    const bool asModelled = grip_.strain > most;
    const double strain = asModelled ? grip_.strain : grip_.printedStrain;
    add(PrintWord::overPressed, asModelled ? PrintGrade::finding : PrintGrade::hint, 100 * strain,
        100 * strain, "%",
        gripText("%.2f mm of overlap a side %s on %.1f mm that gives: up to %.1f %% of strain if "
                 "nothing bends; %.1f %% is what %s takes once",
                 asModelled ? grip_.overlapLowerMm : grip_.printedMm,
                 asModelled ? "as modelled" : "as printed", grip_.givesMm, 100 * strain, 100 * most,
                 weaker.material.name.c_str()),
        100 * most);
  }

  const PrintSubject& subject_;
  const GripFigure& grip_;
  PrintFindings& findings_;
};

}  // namespace

void addGripFindings(const PrintSubject& subject, const GripsResult& result,
                     PrintFindings& findings) {
  for (const GripFigure& grip : result.grips) GripJudge(subject, grip, findings).judge();
}

}  // namespace swingroom
