#include <algorithm>
#include <cmath>
#include <cstdarg>
#include <cstdio>

#include "core/report/findings.h"
#include "core/report/json_report.h"
#include "core/report/print/print_report.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

__attribute__((format(printf, 1, 2))) std::string format(const char* pattern, ...) {
  va_list arguments, again;
  va_start(arguments, pattern);
  va_copy(again, arguments);
  std::string text(static_cast<std::size_t>(std::vsnprintf(nullptr, 0, pattern, arguments)), ' ');
  std::vsnprintf(text.data(), text.size() + 1, pattern, again);
  va_end(again);
  va_end(arguments);
  return text;
}

/// The lower bound rounded down, the upper one up.
std::string gapText(const GapBracket& gap) {
  const double lowerMm = std::floor(gap.lowerMm * 1000) / 1000;
  if (!gap.upperMm) return format("more than %.3f mm", lowerMm);
  return format("%.3f to %.3f mm", lowerMm, std::ceil(*gap.upperMm * 1000) / 1000);
}

class Summary {
 public:
  Summary(const CheckReport& report, const Sequence& way, const SequenceResult& result)
      : assembly_(report.loaded->assembly), way_(way), result_(result) {
    const auto& modes = report.loaded->modes;
    const std::string from = modes.at(result.from.index).name, to = modes.at(result.to.index).name;
    text_ = result.from == result.to ? "\nIn " + from + "\n"
                                     : "\nFrom " + from + " to " + to + " (" + result.name + ")\n";
  }

  std::string write() {
    const auto counts = countVerdicts(result_);
    text_ += "  ";
    for (std::size_t v = 0; v < kVerdicts.size(); ++v) {
      text_ += format("%s%zu %s", v ? ", " : "", counts[v], wordFor(kVerdicts[v]));
    }
    text_ += "\n";
    for (const PairResult* pair : findings()) addFinding(*pair);
    addAllowed();
    addTightest();
    return text_;
  }

 private:
  /// Worst first: by verdict, then the deeper overlap or the smaller gap.
  std::vector<const PairResult*> findings() const {
    std::vector<const PairResult*> found;
    for (const PairResult& pair : result_.pairs) {
      if (pair.verdict < Verdict::clear) found.push_back(&pair);
    }
    const auto depth = [](const PairResult& pair) {
      double deepest = 0;
      for (const Stretch& stretch : pair.stretches)
        deepest = std::max(deepest, stretch.depthMm.value_or(0));
      return deepest;
    };
    std::stable_sort(found.begin(), found.end(), [&](const PairResult* a, const PairResult* b) {
      if (a->verdict != b->verdict) return a->verdict < b->verdict;
      if (a->verdict == Verdict::clash) return depth(*a) > depth(*b);
      return a->gap.lowerMm < b->gap.lowerMm;
    });
    return found;
  }

  std::string names(const PairResult& pair) const {
    return assembly_.part(pair.a).name + " and " + assembly_.part(pair.b).name;
  }

  std::string where(double instant) const {
    const StepInstant at = stepAt(way_, instant);
    if (result_.from == result_.to) return "";
    return format(", step %zu %s, instant %.4f", at.step + 1, way_.steps[at.step].name.c_str(),
                  instant);
  }

  void addFinding(const PairResult& pair) {
    text_ += format("  %-9s", wordFor(pair.verdict)) + names(pair);
    if (pair.verdict == Verdict::tight) {
      text_ += ": " + gapText(pair.gap) + format(", required %.2f mm", pair.requiredGapMm);
      if (pair.gap.instant) text_ += where(*pair.gap.instant);
    }
    text_ += "\n";
    for (const Stretch& stretch : pair.stretches) addStretch(stretch);
    if (pair.joint && pair.joint->verdict < Verdict::clear) {
      text_ += "           inside the zone of joint " + assembly_.joint(pair.joint->joint).name +
               ": " + wordFor(pair.joint->verdict) + ", " + gapText(pair.joint->gap) + "\n";
    }
    for (const LooseContact& loose : pair.looseContacts) {
      text_ += "           " + loose.sentence + "\n";
    }
  }

  void addStretch(const Stretch& stretch) {
    if (result_.from == result_.to) {
      text_ += format("           %s", wordFor(stretch.verdict));
    } else {
      text_ += format("           %s from %.4f to %.4f", wordFor(stretch.verdict), stretch.from,
                      stretch.to);
    }
    if (stretch.verdict == Verdict::clash) {
      text_ += stretch.depthMm ? format(", %.2f mm deep", *stretch.depthMm)
                               : ", depth not known: no closed shell";
      if (stretch.deepestAt) text_ += where(*stretch.deepestAt);
      if (stretch.mover)
        text_ += ", brought about by joint " + assembly_.joint(*stretch.mover).name;
    }
    if (!stretch.combination.empty()) {
      text_ += ", in another order: " + words::combinationText(assembly_, stretch.combination);
    }
    text_ += "\n";
  }

  void addAllowed() {
    for (const PairResult& pair : result_.pairs) {
      if (pair.verdict != Verdict::allowed) continue;
      text_ += "  allowed  " + names(pair) + ": " +
               *assembly_.ruleFor(pair.a, pair.b)->allowReason + "\n";
    }
  }

  /// The tightest pair that passes, and whether inside could be judged.
  void addTightest() {
    const PairResult* tightest = nullptr;
    std::size_t notInside = 0;
    for (const PairResult& pair : result_.pairs) {
      if (!pair.insideJudged) ++notInside;
      // Parts that may touch (fixed to each other, or in contact) keep no gap.
      const bool keepsGap = pair.gap.upperMm && *pair.gap.upperMm >= pair.requiredGapMm - 1e-3;
      if (pair.verdict != Verdict::clear || !keepsGap) continue;
      if (!tightest || *pair.gap.upperMm < *tightest->gap.upperMm) tightest = &pair;
    }
    if (tightest) {
      text_ += "  Tightest that passes: " + names(*tightest) + ", " + gapText(tightest->gap) +
               where(*tightest->gap.instant) + "\n";
    }
    if (notInside > 0) {
      text_ += format("  Inside not judged for %zu pairs: a part in them is not a closed solid.\n",
                      notInside);
    }
  }

  const Assembly& assembly_;
  const Sequence& way_;
  const SequenceResult& result_;
  std::string text_;
};

/// What several findings likely have in common, last: it stands where a terminal ends.
std::string likelyCauses(const CheckReport& report) {
  const std::vector<Finding> findings = findingsOf(report);
  std::string text;
  for (const Cause& cause : causesOf(report, findings)) {
    if (cause.sentence.empty()) continue;
    text += format("  %zu of %zu findings: %s\n", cause.findings.size(), findings.size(),
                   cause.sentence.c_str());
  }
  return text.empty() ? text : "\nLikely causes\n" + text;
}

}  // namespace

std::string toSummary(const CheckReport& report) {
  const Assembly& assembly = report.loaded->assembly;
  const std::size_t pairs = report.results.empty() ? 0 : report.results.front().pairs.size();
  const std::string variant = report.variant.empty() ? "" : ", variant " + report.variant;
  const std::string asPrinted =
      report.print ? printHeadline(*report.print->result) : "as printed: not checked";
  std::string text =
      format("%s%s: %zu parts, %zu pairs, gaps to %g mm, as modelled; %s\n",
             assembly.name().c_str(), variant.c_str(), assembly.parts().size(), pairs,
             report.resolutionMm, asPrinted.c_str());
  for (std::size_t i = 0; i < report.results.size(); ++i) {
    text += Summary(report, report.ways[i], report.results[i]).write();
  }
  for (const Sequence& way : report.ways) {
    for (const Step& step : way.steps) {
      if (step.order != StepOrder::replug) continue;
      text += "  Step " + step.name +
              ": looked at before and after; the way that the hand takes is not checked.\n";
    }
  }
  if (report.print) text += printSummary(*report.print);
  return text + likelyCauses(report);
}

}  // namespace swingroom
