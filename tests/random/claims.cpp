#include "tests/random/claims.h"

#include <algorithm>
#include <cmath>
#include <sstream>

namespace swingroom::random_suite {
namespace {

constexpr double kResolutionMm = 0.01;
/// Rounding of both sides; the check's own contract with FCL is as wide.
constexpr double kAgreeMm = 1e-6;
/// README, "What a check promises": stretches' ends, and gaps that count as meeting the required
/// one.
constexpr double kEnds = 1e-4;
constexpr double kSlackMm = 1e-4;
/// The same: inside a clash, moments without contact shorter than this, of a step, may be passed
/// over.
constexpr double kMoment = 1.0 / 512;
/// Nearer than this counts as contact when the check says so.
constexpr double kTouchMm = 1e-5;
/// Gaps matter this far above the required one.
constexpr double kMattersMm = 1.5;

class Examination {
 public:
  Examination(const RandomCase& c, const Assembly& assembly, const PairResult& told)
      : case_(c),
        told_(told),
        required_(c.parts.requiredGapMm),
        motion_(assembly, c.sequence, told.a, told.b),
        gaps_(*assembly.parts()[told.a.index].mesh, *assembly.parts()[told.b.index].mesh),
        dense_(gaps_, motion_, required_, required_ + kMattersMm + 0.1),
        joints_(assembly.joints().size()) {}

  PairReport run() {
    dense_.refine(80, 200);
    lookWhereTold();
    judgeSamples();
    judgeStretches();
    judgeBracket();
    judgeModes();
    for (std::size_t s = 0; s < motion_.steps(); ++s) {
      if (motion_.isFree(s)) judgeFreeStep(s);
    }
    report_.toldContact = told_.verdict == Verdict::clash;
    report_.unproven = tells(Verdict::unproven, 0, 1, 0);
    if (report_.unproven && !motion_.anyFree()) fail("is unproven");
    report_.samples += static_cast<int>(dense_.samples().size());
    report_.enginesDisagree = gaps_.disagreements();
    return report_;
  }

 private:
  template <typename... Words>
  void fail(const Words&... words) {
    if (report_.failures.size() > 4) return;
    std::ostringstream text;
    text.precision(12);
    (text << ... << words);
    report_.failures.push_back(text.str());
  }

  /// A stretch of `verdict` meets the instants, widened by `slack`.
  bool tells(Verdict verdict, double from, double to, double slack) const {
    return std::any_of(told_.stretches.begin(), told_.stretches.end(), [&](const Stretch& stretch) {
      return stretch.verdict == verdict && stretch.from - slack <= to && stretch.to + slack >= from;
    });
  }
  bool tellsAt(Verdict verdict, double instant) const {
    return tells(verdict, instant, instant, kEnds);
  }
  /// In a stretch of the way in which all joints move together.
  bool wellInside(Verdict verdict, double instant) const {
    return std::any_of(told_.stretches.begin(), told_.stretches.end(), [&](const Stretch& stretch) {
      const bool after = instant > stretch.from + kEnds, before = instant < stretch.to - kEnds;
      return stretch.verdict == verdict && stretch.combination.empty() && after && before;
    });
  }

  std::size_t stepOf(double instant) const {
    const double scaled = instant * static_cast<double>(motion_.steps());
    return std::min(static_cast<std::size_t>(scaled), motion_.steps() - 1);
  }

  /// The pair where a combination of a free step has it.
  Sample atCombination(std::size_t step, const std::vector<JointStand>& combination) {
    const auto& [name, order, start, end] = case_.sequence.steps[step];
    std::vector<JointValue> values = start.values;
    for (const auto& [joint, value] : combination) {
      values[joint.index] = value;
      if (case_.parts.joints[joint.index].type == JointType::ball) continue;
      const auto [low, high] =
          std::minmax(start.values[joint.index].x(), end.values[joint.index].x());
      if (value.x() < low - 1e-9 || value.x() > high + 1e-9) {
        fail("joint ", joint.index, " at ", value.x(), " in step ", step + 1, ", beyond its way");
      }
    }
    return gaps_.exactlyAt(motion_.at(values));
  }

  /// The ends of what is told, just inside and just outside.
  void lookWhereTold() {
    std::vector<double> instants;
    for (const Stretch& stretch : told_.stretches) {
      for (const double end : {stretch.from, stretch.to}) {
        for (const double off : {-1.5 * kEnds, -1.05 * kEnds, 0.0, 1.05 * kEnds, 1.5 * kEnds}) {
          instants.push_back(end + off);
        }
      }
      instants.push_back(0.5 * (stretch.from + stretch.to));
    }
    if (told_.gap.instant) {
      for (const double off : {-1e-3, -1e-5, 0.0, 1e-5, 1e-3}) {
        instants.push_back(*told_.gap.instant + off);
      }
    }
    for (const double instant : instants) {
      if (instant >= 0 && instant <= 1) dense_.look(instant);
    }
  }

  /// The sample by CGAL's exact word, before anything is said against the check.
  Sample certain(const Sample& sample) const { return dense_.exactlyAt(sample.instant); }

  void judgeSamples() {
    const std::vector<Sample> samples = dense_.samples();
    const Sample* least = &samples.front();
    for (const Sample& sample : samples) {
      report_.referenceContact |= sample.clash();
      if (sample.judgedMm() < least->judgedMm()) least = &sample;
      judgeSample(sample);
    }
    judgeSample(certain(*least));
    report_.aboveLowerMm = least->judgedMm() - told_.gap.lowerMm;
  }

  void judgeSample(const Sample& sample) {
    const double t = sample.instant;
    if (told_.gap.lowerMm > sample.judgedMm() + kAgreeMm) {
      const Sample sure = certain(sample);
      if (told_.gap.lowerMm > sure.judgedMm() + kAgreeMm) {
        fail("lower ", told_.gap.lowerMm, " is above ", sure.judgedMm(), " at ", t);
      }
    }
    const bool excused = tellsAt(Verdict::unproven, t);
    if (sample.clash() && !tellsAt(Verdict::clash, t) && !excused && certain(sample).clash()) {
      fail("missed ", sample.inside ? "containment" : "contact", " at ", t);
    }
    const bool told = tellsAt(Verdict::clash, t) || tellsAt(Verdict::tight, t) || excused;
    if (sample.judgedMm() < required_ - kSlackMm - kAgreeMm && !told &&
        certain(sample).judgedMm() < required_ - kSlackMm - kAgreeMm) {
      fail("clear at ", t, ", where the gap is ", sample.judgedMm());
    }
    if (wellInside(Verdict::clash, t) && sample.judgedMm() > kTouchMm) judgeMoment(sample);
    if (wellInside(Verdict::tight, t) && sample.judgedMm() > required_ + kSlackMm)
      judgeTight(sample);
    if (wellInside(Verdict::tight, t) && sample.clash() && !tellsAt(Verdict::clash, t)) {
      fail("tight at ", t, ", where they clash");
    }
  }

  /// Said to clash and does not: longer than what may be passed over?
  void judgeMoment(const Sample& sample) {
    const double moment = kMoment / static_cast<double>(motion_.steps());
    if (sample.instant < judgedUntil_) return;
    const auto [from, to] = dense_.runWithoutContact(sample.instant);
    judgedUntil_ = to;
    if (to - from <= moment + 2 * kEnds) return;
    for (int i = 1; i < 60; ++i) {  // Whether it is one run.
      if (dense_.look(from + (to - from) * i / 60).judgedMm() <= kTouchMm) return;
    }
    for (const Stretch& stretch : told_.stretches) {
      const double over = std::min(to, stretch.to) - std::max(from, stretch.from);
      const bool even = stretch.verdict == Verdict::clash && stretch.combination.empty();
      if (even && over > moment + 2 * kEnds) {
        fail("clash from ", stretch.from, " to ", stretch.to, ", but no contact from ", from,
             " to ", to);
      }
    }
  }

  void judgeTight(const Sample& sample) {
    for (const double off : {-1.2 * kEnds, 1.2 * kEnds}) {
      const double t = std::clamp(sample.instant + off, 0.0, 1.0);
      if (dense_.exactlyAt(t).judgedMm() <= required_ + kSlackMm) return;
    }
    fail("tight at ", sample.instant, ", where the gap is ", certain(sample).judgedMm());
  }

  /// Each stretch has what it says.
  void judgeStretches() {
    for (const Stretch& stretch : told_.stretches) {
      const bool clash = stretch.verdict == Verdict::clash;
      if (!clash && stretch.verdict != Verdict::tight) continue;
      const bool even = stretch.combination.empty();
      const Sample least =
          even ? dense_.leastBetween(stretch.from - kEnds, stretch.to + kEnds, 24)
               : atCombination(stepOf(0.5 * (stretch.from + stretch.to)), stretch.combination);
      const double most = clash ? kTouchMm : required_ + kSlackMm;
      if (least.judgedMm() > most) {
        fail(clash ? "clash" : "tight", " from ", stretch.from, " to ", stretch.to,
             ", but the least gap is ", least.judgedMm(), " at ", least.instant);
      }
    }
  }

  void judgeBracket() {
    const GapBracket& gap = told_.gap;
    const bool clash = told_.verdict == Verdict::clash;
    if (!gap.upperMm) {
      // Farther than matters: then that is proven.
      if (!tells(Verdict::unproven, 0, 1, 0) && gap.lowerMm < required_ + kMattersMm - 1e-4) {
        fail("no upper end, and lower is only ", gap.lowerMm);
      }
      return;
    }
    if (clash) {
      // Parts nearer than that count as touching.
      if (*gap.upperMm > kAgreeMm || gap.lowerMm != 0)
        fail("a clash with a gap of up to ", *gap.upperMm);
      return;
    }
    report_.gapCompared = true;
    const bool unproven = tells(Verdict::unproven, 0, 1, 0);
    if (!unproven) report_.widthMm = *gap.upperMm - gap.lowerMm;
    if (!unproven &&
        *gap.upperMm<required_ + kMattersMm&& * gap.upperMm - gap.lowerMm> kResolutionMm + 1e-9) {
      fail("bracket from ", gap.lowerMm, " to ", *gap.upperMm, " is too wide");
    }
    const double there = gap.combination.empty()
                             ? dense_.exactlyAt(*gap.instant).judgedMm()
                             : atCombination(stepOf(*gap.instant), gap.combination).judgedMm();
    if (std::abs(there - *gap.upperMm) > kAgreeMm) {
      fail("upper ", *gap.upperMm, " is told for ", *gap.instant, ", where the gap is ", there);
    }
  }

  void judgeModes() {
    for (const ModeGap& mode : told_.modes) {
      const double instant = mode.mode.index == 0 ? 0 : 1;
      const double there = dense_.exactlyAt(instant).judgedMm();
      if (there < mode.lowerMm - kAgreeMm || (mode.upperMm && there > *mode.upperMm + kAgreeMm)) {
        fail("mode ", mode.mode.index, " from ", mode.lowerMm, " to ", mode.upperMm.value_or(-1),
             ", but the gap is ", there);
      }
    }
  }

  void judgeFreeStep(std::size_t step) {
    const auto count = static_cast<double>(motion_.steps());
    const double from = static_cast<double>(step) / count,
                 to = static_cast<double>(step + 1) / count;
    const double cap = required_ + kMattersMm + 0.5;
    const auto looked =
        lookAtFreeStep(gaps_, motion_, step, joints_, cap, static_cast<unsigned>(case_.seed));
    report_.samples += static_cast<int>(looked.size());
    Sample least = looked.front().sample;
    if (!least.clash() && least.gapMm < cap) {
      least = gaps_.exactlyAt(motion_.at(step, looked.front().shares));
    }
    report_.referenceContact |= least.clash();
    const auto says = [&](Verdict verdict) { return tells(verdict, from, to, -1e-9); };
    const bool unproven = says(Verdict::unproven);
    std::ostringstream where;
    where.precision(12);
    where << " in step " << step + 1 << " at shares";
    for (const JointId id : motion_.movers(step)) {
      where << " " << id.index << ": " << looked.front().shares[id.index];
    }
    // At the cap the reference says no more than that the gap is not below it.
    const bool measured = least.clash() || least.gapMm < cap;
    if (measured && told_.gap.lowerMm > least.judgedMm() + kAgreeMm) {
      fail("lower ", told_.gap.lowerMm, " is above ", least.judgedMm(), where.str());
    }
    if (least.clash() && !says(Verdict::clash) && !unproven) fail("missed contact", where.str());
    const bool told = says(Verdict::clash) || says(Verdict::tight) || unproven;
    if (least.judgedMm() < required_ - kSlackMm - kAgreeMm && !told) {
      fail("clear, but the gap is ", least.judgedMm(), where.str());
    }
  }

  const RandomCase& case_;
  const PairResult& told_;
  double required_;
  PairKinematics motion_;
  GapReference gaps_;
  DenseReference dense_;
  std::size_t joints_;
  double judgedUntil_ = 0;
  PairReport report_;
};

}  // namespace

PairReport examine(const RandomCase& c, const Assembly& assembly, const PairResult& told) {
  return Examination(c, assembly, told).run();
}

}  // namespace swingroom::random_suite
