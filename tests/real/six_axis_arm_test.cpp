// The check of the arm, folded to reaching, against a dense run of FCL.
#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <cstdio>

#include "core/sweep/sweep.h"
#include "tests/real/dense_run.h"
#include "tests/real/six_axis_arm.h"
#include "tests/support/shapes.h"

namespace swingroom::real {
namespace {

constexpr int kSamplesPerStep = 100;
/// Both engines work in double on coordinates of some hundred mm; so near they count as touching.
constexpr double kEnginesMm = 1e-6;
/// Ends of stretches are told within this (product.md 4).
constexpr double kEnds = 1e-4;
/// Meeting the required gap but for this is meeting it (core/sweep/track.h).
constexpr double kShortMm = 1e-4;
constexpr double kResolutionMm = 0.01;
/// From here on gaps do not matter (product.md 3a).
constexpr double kMattersMm = 1.0 + 1.5;

const char* wordFor(Verdict verdict) {
  const char* words[] = {"clash", "tight", "loose", "unproven", "clear", "allowed"};
  return words[static_cast<std::size_t>(verdict)];
}

/// Whether `instant` is in a stretch with `verdict`; `margin` beyond its ends, or, if negative,
/// within them. The sequence's own ends are no ends of a stretch.
bool toldIn(const PairResult& pair, Verdict verdict, double instant, double margin) {
  for (const Stretch& stretch : pair.stretches) {
    const bool after = stretch.from == 0 || instant >= stretch.from - margin;
    const bool before = stretch.to == 1 || instant <= stretch.to + margin;
    if (stretch.verdict == verdict && after && before) return true;
  }
  return false;
}

double leastOf(const std::vector<DenseSample>& samples, std::optional<double> DenseSample::*gap) {
  double least = std::numeric_limits<double>::infinity();
  for (const DenseSample& sample : samples) least = std::min(least, (sample.*gap).value_or(least));
  return least;
}

/// lower <= true least gap <= upper, of which the dense run sees samples.
void expectBracket(const GapBracket& told, const std::vector<DenseSample>& samples,
                   std::optional<double> DenseSample::*gap) {
  const double leastMm = leastOf(samples, gap);
  EXPECT_GE(leastMm, told.lowerMm - kEnginesMm);
  if (!told.upperMm) {
    EXPECT_GE(told.lowerMm, kMattersMm - kEnginesMm) << "a gap that matters has two bounds";
    return;
  }
  EXPECT_LE(told.lowerMm, *told.upperMm);
  EXPECT_LE(*told.upperMm - told.lowerMm, kResolutionMm);
  EXPECT_LT(*told.upperMm, kMattersMm + kEnginesMm);
  // A sample may be below the upper bound, but by no more than the bracket is wide.
  EXPECT_LE(*told.upperMm, leastMm + kResolutionMm + kEnginesMm);
  // The upper bound is a gap that is really there, at the instant that is told.
  ASSERT_TRUE(told.instant);
  const auto there = std::find_if(samples.begin(), samples.end(), [&](const DenseSample& sample) {
    return sample.instant == *told.instant;
  });
  ASSERT_NE(there, samples.end());
  EXPECT_NEAR(((*there).*gap).value(), *told.upperMm, kEnginesMm);
}

void expectStretches(const PairResult& pair, double requiredMm,
                     const std::vector<DenseSample>& samples) {
  for (const DenseSample& sample : samples) {
    SCOPED_TRACE(testing::Message() << "instant " << sample.instant << ", whole " << sample.wholeMm
                                    << ", outside " << sample.outsideMm.value_or(-1));
    const double outsideMm = sample.outsideMm.value();
    const bool nearClash = toldIn(pair, Verdict::clash, sample.instant, kEnds);
    const bool nearTight = toldIn(pair, Verdict::tight, sample.instant, kEnds);
    EXPECT_TRUE(nearClash || outsideMm > 0);
    EXPECT_TRUE(nearClash || nearTight || outsideMm >= requiredMm - kShortMm - kEnginesMm);
    // No part of the arm is ever wholly inside another: a clash is surfaces that meet.
    if (toldIn(pair, Verdict::clash, sample.instant, -kEnds)) {
      EXPECT_LE(sample.wholeMm, kEnginesMm);
    }
    if (toldIn(pair, Verdict::tight, sample.instant, -kEnds)) {
      EXPECT_GT(outsideMm, 0);
      EXPECT_LT(outsideMm, requiredMm);
    }
  }
  for (std::size_t i = 0; i < pair.stretches.size(); ++i) {
    EXPECT_LT(pair.stretches[i].from, pair.stretches[i].to);
    EXPECT_GE(pair.stretches[i].from, i > 0 ? pair.stretches[i - 1].to : 0.0);
    EXPECT_NE(pair.stretches[i].verdict, Verdict::unproven);
  }
}

/// Cutting at the zones loses no surface: the nearest of the pieces is as near as the whole parts.
/// And outside the fit's excuse nothing touches at the zone's rim.
void expectZones(const PairResult& pair, const std::vector<DenseSample>& samples) {
  ASSERT_TRUE(pair.joint);
  EXPECT_GT(pair.joint->excusedAreaMm2, 0);
  for (const DenseSample& sample : samples) {
    SCOPED_TRACE(testing::Message() << "instant " << sample.instant);
    const double nearestMm =
        std::min({sample.outsideMm.value(), sample.insideMm.value(), sample.rimMm.value()});
    EXPECT_NEAR(nearestMm, sample.wholeMm, kEnginesMm);
    EXPECT_GT(sample.rimMm.value(), 0);
  }
  expectBracket(pair.joint->gap, samples, &DenseSample::insideMm);
}

void expectModes(const LoadedAssembly& arm, const AssemblyGeometry& geometry,
                 const PairResult& pair) {
  ASSERT_EQ(pair.modes.size(), arm.modes.size());
  for (const ModeGap& told : pair.modes) {
    const Mode& mode = arm.modes[told.mode.index];
    SCOPED_TRACE(mode.name);
    const auto [a, b] = judgedSurfaces(arm.assembly, mode.configuration, geometry, pair.a, pair.b);
    const double gapMm = gapAt(arm.assembly, mode.configuration, pair.a, pair.b, *a, *b);
    EXPECT_GE(gapMm, told.lowerMm - kEnginesMm);
    if (told.upperMm) {
      EXPECT_LE(gapMm, *told.upperMm + kEnginesMm);
      EXPECT_LE(*told.upperMm - told.lowerMm, 2 * kEnginesMm);
    } else {
      EXPECT_GE(gapMm, kMattersMm - kEnginesMm);
    }
  }
}

void expectVerdict(const PairResult& pair) {
  Verdict worst = pair.joint ? pair.joint->verdict : Verdict::clear;
  for (const Stretch& stretch : pair.stretches) worst = std::min(worst, stretch.verdict);
  EXPECT_EQ(pair.verdict, worst);
  const bool clash = pair.verdict == Verdict::clash;
  if (clash) {
    EXPECT_EQ(pair.gap.lowerMm, 0);
    EXPECT_EQ(pair.gap.upperMm, 0.0);
  }
}

/// What kinds of pairs the dense run itself sees, so that the comparison is about all of them.
struct Kinds {
  int far = 0, near = 0, below = 0, meetsAtTimes = 0, meetsAlways = 0;

  void count(const std::vector<DenseSample>& samples, double requiredMm) {
    const auto meets = [](const DenseSample& sample) { return sample.outsideMm == 0.0; };
    const double leastMm = leastOf(samples, &DenseSample::outsideMm);
    if (std::all_of(samples.begin(), samples.end(), meets)) {
      ++meetsAlways;
    } else if (std::any_of(samples.begin(), samples.end(), meets)) {
      ++meetsAtTimes;
    } else if (leastMm < requiredMm) {
      ++below;
    } else {
      ++(leastMm < kMattersMm ? near : far);
    }
  }
};

void print(const Assembly& assembly, const PairResult& pair,
           const std::vector<DenseSample>& samples) {
  const auto name = [&](PartId id) { return assembly.part(id).name.c_str(); };
  std::printf("%-10s %-10s %-6s lower %10.6f upper %10.6f dense %10.6f", name(pair.a), name(pair.b),
              wordFor(pair.verdict), pair.gap.lowerMm, pair.gap.upperMm.value_or(-1),
              leastOf(samples, &DenseSample::outsideMm));
  if (pair.joint) std::printf("  zone %s", wordFor(pair.joint->verdict));
  for (std::size_t i = 0; i < pair.stretches.size() && i < 4; ++i) {
    const Stretch& stretch = pair.stretches[i];
    std::printf("  %s %.5f to %.5f", wordFor(stretch.verdict), stretch.from, stretch.to);
    if (stretch.depthMm) std::printf(" depth %.3f", *stretch.depthMm);
  }
  if (pair.stretches.size() > 4) std::printf("  and %zu more", pair.stretches.size() - 4);
  std::printf("\n");
}

SequenceResult sweepOf(const LoadedAssembly& arm, const Sequence& sequence,
                       const AssemblyGeometry& geometry, unsigned threads) {
  SweepSettings settings;
  settings.resolutionMm = kResolutionMm;
  settings.threads = threads;
  WorkMonitor monitor;
  return sweep(arm.assembly, arm.modes, sequence, geometry, settings, monitor);
}

TEST(SixAxisArm, NoInstantOfADenseRunBreaksTheCheck) {
  const LoadedAssembly arm = loadArm();
  const AssemblyGeometry geometry = prepareGeometry(arm.assembly, 2);
  const Sequence& sequence = arm.sequences.at(0);
  ASSERT_EQ(sequence.steps.size(), 4u);
  const auto start = std::chrono::steady_clock::now();
  const SequenceResult result = sweepOf(arm, sequence, geometry, 2);
  const std::chrono::duration<double> seconds = std::chrono::steady_clock::now() - start;
  ASSERT_EQ(result.pairs.size(), 21u);

  Kinds kinds;
  int verdicts[6] = {};
  for (const PairResult& pair : result.pairs) {
    SCOPED_TRACE(arm.assembly.part(pair.a).name + " and " + arm.assembly.part(pair.b).name);
    const std::vector<DenseSample> samples =
        denseRun(arm.assembly, sequence, geometry, pair.a, pair.b,
                 instantsOf(sequence, kSamplesPerStep, pair));
    print(arm.assembly, pair, samples);
    kinds.count(samples, pair.requiredGapMm);
    ++verdicts[static_cast<std::size_t>(pair.verdict)];
    EXPECT_EQ(pair.requiredGapMm, 1.0);
    expectVerdict(pair);
    expectStretches(pair, pair.requiredGapMm, samples);
    if (pair.verdict != Verdict::clash) expectBracket(pair.gap, samples, &DenseSample::outsideMm);
    if (pair.joint) expectZones(pair, samples);
    expectModes(arm, geometry, pair);
  }
  std::printf("%.1f s on 2 threads; clash %d, tight %d, unproven %d, clear %d\n", seconds.count(),
              verdicts[0], verdicts[1], verdicts[3], verdicts[4]);
  EXPECT_GE(kinds.far, 1);
  EXPECT_GE(kinds.near, 1);
  EXPECT_GE(kinds.below, 1);
  EXPECT_GE(kinds.meetsAtTimes, 1);
  EXPECT_GE(kinds.meetsAlways, 1);
}

// The last step alone: it has a clash, a tight pair and all zones in it, at a third of the time.
TEST(SixAxisArm, OneThreadAndTwoGiveTheSame) {
  const LoadedAssembly arm = loadArm();
  const AssemblyGeometry geometry = prepareGeometry(arm.assembly, 2);
  Sequence reach = arm.sequences.at(0);
  reach.steps = {reach.steps.back()};
  const SequenceResult onTwo = sweepOf(arm, reach, geometry, 2);
  EXPECT_EQ(sweepOf(arm, reach, geometry, 1), onTwo);
  EXPECT_TRUE(std::any_of(onTwo.pairs.begin(), onTwo.pairs.end(),
                          [](const PairResult& pair) { return pair.verdict == Verdict::clash; }));
}

// What the dense run relies on: FCL sees a touch of one point, on a mesh as real as the arm's.
TEST(SixAxisArm, ABoxThatTouchesAPartInOnePlaceIsZeroAway) {
  const Assembly assembly = loadArm().assembly;
  for (const Part& part : assembly.parts()) {
    SCOPED_TRACE(part.name);
    const Eigen::AlignedBox3d bounds = boundsOf(*part.mesh);
    const Vector3d low = bounds.min(), high = bounds.max();
    const double beside = high.x() + 10;
    const TriangleMesh touching =
        shapes::box({high.x(), low.y(), low.z()}, {beside, high.y(), high.z()});
    const TriangleMesh apart =
        shapes::box({high.x() + 1e-3, low.y(), low.z()}, {beside, high.y(), high.z()});
    const GapModel model(*part.mesh);
    EXPECT_TRUE(gapBetween(model, GapModel(touching), Pose::Identity()).meets);
    EXPECT_NEAR(gapBetween(model, GapModel(apart), Pose::Identity()).gapMm, 1e-3, 1e-9);
  }
}

}  // namespace
}  // namespace swingroom::real
