#include "core/print/printed/printed_gaps.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>

#include "core/print/printed/play_bound.h"
#include "core/print/printed/play_search.h"
#include "core/sweep/plan.h"
#include "core/sweep/sweep.h"

namespace swingroom {
namespace {

double printedGrowth(const PartPrint& print) {
  if (!print.printed) return 0;
  return std::max(print.process.growthOutsideMm.value, print.process.growthInsideMm.value);
}

bool areFixedTogether(const Assembly& assembly, const Configuration& standing, PartId a, PartId b) {
  const std::vector<JointId> links = linksBetween(assembly, standing, a, b);
  return !links.empty() && std::all_of(links.begin(), links.end(), [&](JointId id) {
    return assembly.joint(id).type == JointType::fixed;
  });
}

/// Asks what is left of one pair's gap.
class PrintedPairCheck {
 public:
  PrintedPairCheck(const PrintSubject& subject, const std::vector<JointPlay>& plays, PartId a,
                   PartId b)
      : subject_(subject), played_{subject.assembly, subject.geometry, &plays, a, b} {
    gap_.a = a;
    gap_.b = b;
    gap_.growthMm = growthBetween(subject, a, b);
    const auto scatter = [&](PartId id) {
      return subject.print(id).printed ? subject.print(id).process.scatterMm.value : 0;
    };
    // Half of a size's scatter is at each of its two faces.
    gap_.scatterMm = (scatter(a) + scatter(b)) / 2;
  }

  PrintedGap run(std::size_t pair, const WorkMonitor& monitor) {
    for (std::size_t way = 0; way < subject_.results->size() && !monitor.cancelled(); ++way) {
      look(way, subject_.results->at(way).pairs.at(pair), monitor);
    }
    return gap_;
  }

 private:
  const PairRule* rule() const { return subject_.assembly->ruleFor(gap_.a, gap_.b); }
  const Sequence& wayOf(std::size_t way) const { return subject_.ways->at(way); }

  void look(std::size_t way, const PairResult& result, const WorkMonitor& monitor) {
    if (result.verdict == Verdict::allowed || result.verdict == Verdict::clash) return;
    const Configuration start = wayOf(way).steps.front().start;
    if (areFixedTogether(*subject_.assembly, start, gap_.a, gap_.b)) return;
    gap_.hangTogether |= !linksBetween(*subject_.assembly, start, gap_.a, gap_.b).empty();
    if (rule() && !rule()->contacts.empty()) return lookAtContact(way, monitor);
    take(way, result, monitor);
  }

  /// Outside the contacts, with the growth in place of the required gap.
  void lookAtContact(std::size_t way, const WorkMonitor& monitor) {
    if (gap_.state == PrintedState::closes) return;
    AssemblyParts parts{subject_.assembly->name(),         gap_.growthMm,
                        subject_.assembly->resolutionMm(), subject_.assembly->parts(),
                        subject_.assembly->joints(),       {*rule()}};
    parts.pairRules.front().requiredGapMm = gap_.growthMm;
    const Assembly grown(std::move(parts));
    SweepSettings settings;
    settings.resolutionMm = subject_.assembly->resolutionMm();
    settings.depths = false;
    const PairResult result = checkPair(grown, *subject_.modes, wayOf(way), *subject_.geometry,
                                        gap_.a, gap_.b, settings, monitor);
    const bool closes =
        std::any_of(result.stretches.begin(), result.stretches.end(), [](const Stretch& stretch) {
          return stretch.verdict == Verdict::clash || stretch.verdict == Verdict::tight;
        });
    gap_.state = closes ? PrintedState::closes : PrintedState::contact;
    if (!closes) return;
    gap_.way = way;
    gap_.instant = result.gap.instant.value_or(result.stretches.front().from);
    gap_.lowerMm = result.gap.lowerMm - gap_.growthMm;
    if (result.gap.upperMm) gap_.upperMm = *result.gap.upperMm - gap_.growthMm;
  }

  void take(std::size_t way, const PairResult& result, const WorkMonitor& monitor) {
    const double lower = result.gap.lowerMm - gap_.growthMm;
    const bool first = gap_.state == PrintedState::notJudged;
    if (first || lower < gap_.lowerMm) {
      gap_.way = way;
      gap_.lowerMm = lower;
      gap_.upperMm.reset();
      if (result.gap.upperMm) gap_.upperMm = *result.gap.upperMm - gap_.growthMm;
      gap_.instant = result.gap.instant.value_or(0);
      gap_.state = gap_.upperMm && *gap_.upperMm <= 0 ? PrintedState::closes : PrintedState::apart;
    }
    takePlay(way, result, first, monitor);
  }

  bool isPlayKnown(std::size_t way) const {
    const auto isKnown = [&](const RelativeMotion::Link& link) {
      return played_.plays->at(link.id.index).source != PlaySource::unknown;
    };
    const std::vector<Step> steps = standsOnWay(wayOf(way));
    return std::all_of(steps.begin(), steps.end(), [&](const Step& step) {
      const RelativeMotion motion(*subject_.assembly, step, gap_.a, gap_.b);
      return std::all_of(motion.links().begin(), motion.links().end(), isKnown);
    });
  }

  /// The way on which play leaves least.
  void takePlay(std::size_t way, const PairResult& result, bool first, const WorkMonitor& monitor) {
    gap_.playIsKnown = gap_.playIsKnown && isPlayKnown(way);
    if (!gap_.playIsKnown) {
      gap_.playLowerMm = 0;
      return gap_.playUpperMm.reset();
    }
    double bound = 0;
    for (const Step& step : standsOnWay(wayOf(way))) {
      bound = std::max(bound, playBound(played_, step));
    }
    double lower = result.gap.lowerMm - bound;
    const double farMm = gap_.growthMm + kMattersAboveRequiredMm;
    if (result.gap.instant && result.gap.points_W) {
      seeWithPlay(way, *result.gap.instant, (*result.gap.points_W)[0], (*result.gap.points_W)[1]);
    }
    if (lower < farMm && bound > 0 && gap_.playUpperMm != 0) {
      if (const auto least = playedLeast(played_, wayOf(way), {gap_.growthMm, farMm}, monitor)) {
        lower = std::max(lower, least->lowerMm);
        if (least->instant) seeWithPlay(way, *least->instant, least->onA_W, least->onB_W);
      }
    }
    lower = std::max(0.0, lower - gap_.growthMm);
    gap_.playLowerMm = first ? lower : std::min(gap_.playLowerMm, lower);
  }

  /// One case that can be: as everything stands then, every joint off so that the two places come
  /// nearer.
  void seeWithPlay(std::size_t way, double instant, const Vector3d& onA_W, const Vector3d& onB_W) {
    const double withinMm = gap_.growthMm + kMattersAboveRequiredMm;
    const Configuration standing = configurationAt(*subject_.assembly, wayOf(way), instant);
    const double seen = playedGap(played_, standing, onA_W, onB_W, withinMm);
    if (seen >= withinMm) return;
    const double leftMm = std::max(0.0, seen - gap_.growthMm);
    gap_.playUpperMm = std::min(gap_.playUpperMm.value_or(leftMm), leftMm);
  }

  const PrintSubject& subject_;
  PlayedPair played_;
  PrintedGap gap_;
};

/// One of all: what touches only if every joint is off the worst way is worth knowing, and no
/// fault.
void addPlayHint(const PrintedGaps& result, PrintFindings& findings) {
  std::size_t seen = 0, open = 0, unknown = 0;
  for (const PrintedGap& gap : result.pairs) {
    if (gap.state != PrintedState::apart || gap.hangTogether || gap.playLowerMm > 0) continue;
    ++(!gap.playIsKnown ? unknown : gap.playUpperMm == 0 ? seen : open);
  }
  if (seen + open == 0) return;
  PrintFinding hint;
  hint.word = PrintWord::rubsWithPlay;
  hint.grade = PrintGrade::hint;
  hint.lower = static_cast<double>(seen);
  hint.upper = static_cast<double>(seen + open);
  hint.unit = "pairs";
  hint.sentence = std::to_string(seen) + (seen == 1 ? " pair touches" : " pairs touch") +
                  " if every joint between is off by all its play, the worst way at once";
  if (open > 0)
    hint.sentence += "; of " + std::to_string(open) + " more it is not proven that they do not";
  if (unknown > 0)
    hint.sentence +=
        "; of " + std::to_string(unknown) + " the play of a joint between is not known";
  findings.push_back(hint);
}

}  // namespace

double growthBetween(const PrintSubject& subject, PartId a, PartId b) {
  return printedGrowth(subject.print(a)) + printedGrowth(subject.print(b));
}

PrintedGaps checkPrintedGaps(const PrintSubject& subject, const std::vector<JointPlay>& plays,
                             WorkMonitor& monitor) {
  PrintedGaps gaps;
  for (std::size_t j = 0; j < subject.assembly->joints().size(); ++j) {
    const Joint& joint = subject.assembly->joint(JointId{j});
    if (joint.type == JointType::fixed || !joint.parent) continue;
    ++(plays.at(j).source != PlaySource::unknown ? gaps.playKnown : gaps.playUnknown);
  }
  gaps.judged = subject.results && !subject.results->empty();
  if (!gaps.judged) return gaps;
  const auto& pairs = subject.results->front().pairs;
  gaps.pairs.resize(pairs.size());
  parallelFor(pairs.size(), subject.threads, [&](std::size_t i) {
    if (monitor.cancelled()) return;
    gaps.pairs[i] = PrintedPairCheck(subject, plays, pairs[i].a, pairs[i].b).run(i, monitor);
  });
  return gaps;
}

void addPrintedFindings(const PrintedGaps& result, PrintFindings& findings) {
  char text[160];
  for (const PrintedGap& gap : result.pairs) {
    PrintFinding finding;
    finding.parts = {gap.a, gap.b};
    finding.unit = "mm";
    finding.lower = gap.lowerMm;
    finding.upper = gap.upperMm.value_or(gap.lowerMm);
    finding.needed = 0;
    if (gap.state == PrintedState::closes) {
      finding.word = PrintWord::closesAsPrinted;
      std::snprintf(text, sizeof text,
                    "%.2f mm of gap are missing once both surfaces are %.2f mm fatter together",
                    std::max(0.0, -finding.upper), gap.growthMm);
    } else if (gap.state == PrintedState::apart && gap.upperMm && *gap.upperMm < gap.scatterMm) {
      finding.word = PrintWord::withinScatter;
      finding.grade = PrintGrade::hint;
      finding.needed = gap.scatterMm;
      std::snprintf(text, sizeof text,
                    "%.2f mm are left as printed, less than the %.2f mm by which one print's gap "
                    "differs from another's",
                    std::max(0.0, gap.lowerMm), gap.scatterMm);
    } else {
      continue;
    }
    finding.sentence = text;
    findings.push_back(finding);
  }
  addPlayHint(result, findings);
}

}  // namespace swingroom
