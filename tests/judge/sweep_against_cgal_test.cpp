// What the check says of random assemblies in motion against CGAL at many instants. Sampling cannot
// prove a bound, but one instant that breaks it disproves it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <vector>

#include "core/proximity/gap.h"
#include "core/sweep/sweep.h"
#include "tests/judge/cgal_judge.h"
#include "tests/judge/pairs.h"

namespace swingroom {
namespace {

constexpr double kRounding = 1e-9;
constexpr double kResolutionMm = 0.01;
/// Ends of a clash are told within this (product.md 4).
constexpr double kEnds = 1e-4;

Vector3d randomPoint(std::mt19937_64& random, double reach) {
  std::uniform_real_distribution<double> coordinate(-reach, reach);
  return {coordinate(random), coordinate(random), coordinate(random)};
}

Joint randomJoint(std::mt19937_64& random, JointType type, std::optional<PartId> parent,
                  PartId child) {
  Joint joint;
  joint.type = type;
  joint.parent = parent;
  joint.child = child;
  joint.through = randomPoint(random, 15);
  joint.along = randomPoint(random, 1).normalized();
  return joint;
}

struct Case {
  Assembly assembly;
  std::vector<Mode> modes;
  Sequence sequence;
};

/// A fixed part, one on a hinge or slide, and one that hangs on that one by a slide and a hinge or
/// by a ball, in random places; two steps of random values.
Case randomCase(unsigned seed, StepOrder order) {
  std::mt19937_64 random(seed);
  const std::vector<judge::NamedMesh> solids = judge::solids();
  const std::size_t few[] = {0, 1, 4, 7};
  AssemblyParts parts;
  parts.requiredGapMm = 6;  // So that most pairs matter and are bracketed.
  for (int i = 0; i < 3; ++i) {
    Part part;
    part.mesh = std::make_shared<TriangleMesh>(solids[few[random() % 4]].mesh);
    part.X_WP_home = shapes::randomPose(random, 16);
    parts.parts.push_back(part);
  }
  const bool odd = seed % 2 == 1;
  parts.joints = {
      randomJoint(random, odd ? JointType::hinge : JointType::slide, PartId{0}, PartId{1})};
  if (odd || order == StepOrder::free) {
    parts.joints.push_back(randomJoint(random, JointType::slide, PartId{1}, PartId{2}));
    parts.joints.push_back(randomJoint(random, JointType::hinge, PartId{1}, PartId{2}));
  } else {
    parts.joints.push_back(randomJoint(random, JointType::ball, PartId{1}, PartId{2}));
  }
  const Assembly assembly(parts);
  std::vector<Configuration> stations(3, assembly.home());
  for (Configuration& station : stations) {
    for (std::size_t j = 0; j < parts.joints.size(); ++j) {
      const Vector3d value = randomPoint(random, 1);
      if (parts.joints[j].type == JointType::hinge) station.values[j].x() = 1.5 * value.x();
      if (parts.joints[j].type == JointType::slide) station.values[j].x() = 12 * value.x();
      if (parts.joints[j].type == JointType::ball) station.values[j] = 1.5 * value;
    }
  }
  Sequence sequence{"way", ModeId{0}, ModeId{1}, {}};
  sequence.steps = {{"one", order, stations[0], stations[1]},
                    {"two", order, stations[1], stations[2]}};
  return {assembly, {{"from", stations[0]}, {"to", stations[2]}}, sequence};
}

/// Judged gap of two parts' surfaces, mm, 0 where they meet, and whether they clash: meet, or one
/// is inside.
struct Judged {
  double gapMm = 0;
  bool clash = false;
};

Judged judgedAt(const Case& c, const Configuration& at, PartId a, PartId b) {
  const std::vector<Pose> poses = posesOf(c.assembly, at);
  const TriangleMesh meshA = shapes::moved(*c.assembly.part(a).mesh, poses[a.index]);
  const TriangleMesh meshB = shapes::moved(*c.assembly.part(b).mesh, poses[b.index]);
  if (judge::surfacesMeet(meshA, meshB)) return {0, true};
  const auto inside = [](const TriangleMesh& inner, const TriangleMesh& outer) {
    return judge::sidesOf(outer, {inner.vertices[0]}).front() == judge::Side::inside;
  };
  return {std::sqrt(judge::squaredDistance(meshA, meshB)),
          inside(meshA, meshB) || inside(meshB, meshA)};
}

SequenceResult sweepOf(const Case& c) {
  SweepSettings settings;
  settings.resolutionMm = kResolutionMm;
  settings.threads = 1;
  WorkMonitor monitor;
  return sweep(c.assembly, c.modes, c.sequence, prepareGeometry(c.assembly, 1), settings, monitor);
}

/// Told to clash at `instant`: yes, no, or so near an end that either is right.
std::optional<bool> toldClash(const PairResult& pair, double instant) {
  for (const Stretch& stretch : pair.stretches) {
    if (stretch.verdict != Verdict::clash) continue;
    if (std::abs(instant - stretch.from) < kEnds || std::abs(instant - stretch.to) < kEnds)
      return std::nullopt;
    if (instant > stretch.from && instant < stretch.to) return true;
  }
  return false;
}

void expectBracket(const Case& c, const PairResult& pair) {
  EXPECT_NE(pair.verdict, Verdict::unproven);
  if (!pair.gap.upperMm) return;
  EXPECT_LE(*pair.gap.upperMm - pair.gap.lowerMm, kResolutionMm + kRounding);
  ASSERT_TRUE(pair.gap.instant);
  const Judged there =
      judgedAt(c, configurationAt(c.assembly, c.sequence, *pair.gap.instant), pair.a, pair.b);
  EXPECT_LE(there.clash ? 0 : there.gapMm, *pair.gap.upperMm + kRounding);
}

/// The instant, of many, at which the second engine sees the least gap.
double nearestInstant(const Case& c, const PairResult& pair) {
  constexpr int kSamples = 600;
  const GapModel a(*c.assembly.part(pair.a).mesh), b(*c.assembly.part(pair.b).mesh);
  double nearest = 0, leastMm = std::numeric_limits<double>::infinity();
  for (int i = 0; i <= kSamples; ++i) {
    const double instant = static_cast<double>(i) / kSamples;
    const auto poses = posesOf(c.assembly, configurationAt(c.assembly, c.sequence, instant));
    const double gapMm =
        gapBetween(a, b, poses[pair.a.index].inverse() * poses[pair.b.index]).gapMm;
    if (gapMm < leastMm) leastMm = gapMm, nearest = instant;
  }
  return nearest;
}

void expectNothingBreaks(const Case& c, const PairResult& pair) {
  constexpr int kSamples = 12;
  std::vector<double> instants = {nearestInstant(c, pair)};
  for (int i = 0; i <= kSamples; ++i) instants.push_back(static_cast<double>(i) / kSamples);
  for (const double instant : instants) {
    const Judged judged =
        judgedAt(c, configurationAt(c.assembly, c.sequence, instant), pair.a, pair.b);
    SCOPED_TRACE(testing::Message() << "instant " << instant);
    EXPECT_GE((judged.clash ? 0 : judged.gapMm), pair.gap.lowerMm - kRounding);
    const std::optional<bool> told = toldClash(pair, instant);
    if (told) {
      EXPECT_EQ(*told, judged.clash);
    }
  }
}

TEST(SweepAgainstCgal, NoInstantBreaksABracketOrAClash) {
  int clashes = 0, tight = 0, pairs = 0;
  for (unsigned seed = 1; seed <= 8; ++seed) {
    const Case c = randomCase(seed, StepOrder::together);
    for (const PairResult& pair : sweepOf(c).pairs) {
      SCOPED_TRACE(testing::Message()
                   << "seed " << seed << ", parts " << pair.a.index << " and " << pair.b.index);
      expectBracket(c, pair);
      expectNothingBreaks(c, pair);
      ++pairs;
      clashes += pair.verdict == Verdict::clash;
      tight += pair.gap.upperMm.has_value();
    }
  }
  EXPECT_GT(clashes, 3) << "of " << pairs;
  EXPECT_LT(clashes, pairs - 3);
  EXPECT_GT(tight, clashes + 3) << "no gap that matters was bracketed";
}

/// Every joint anywhere between its start and its end in `step`.
Configuration anywhereIn(const Case& c, const Step& step, std::mt19937_64& random) {
  std::uniform_real_distribution<double> share(0, 1);
  Configuration at = step.start;
  for (std::size_t j = 0; j < at.values.size(); ++j) {
    at.values[j] = valueBetween(c.assembly.joint(JointId{j}), step.start.values[j],
                                step.end.values[j], share(random));
  }
  return at;
}

bool isProven(const PairResult& pair) {
  return std::none_of(pair.stretches.begin(), pair.stretches.end(),
                      [](const Stretch& stretch) { return stretch.verdict == Verdict::unproven; });
}

// product.md 3: in a `free` step a hand may move the joints in any order, the proof covers every
// combination. Of a pair that is not proven that must be said.
TEST(SweepAgainstCgal, NoOrderOfAFreeStepBreaksABracket) {
  int proven = 0;
  for (unsigned seed = 21; seed <= 26; ++seed) {
    const Case c = randomCase(seed, StepOrder::free);
    std::mt19937_64 random(seed);
    for (const PairResult& pair : sweepOf(c).pairs) {
      SCOPED_TRACE(testing::Message()
                   << "seed " << seed << ", parts " << pair.a.index << " and " << pair.b.index);
      for (std::size_t i = 0; i < 16; ++i) {
        const Judged judged =
            judgedAt(c, anywhereIn(c, c.sequence.steps[i % 2], random), pair.a, pair.b);
        EXPECT_GE(judged.clash ? 0 : judged.gapMm, pair.gap.lowerMm - kRounding) << "sample " << i;
        if (pair.verdict == Verdict::clash || !isProven(pair)) continue;
        ++proven;
        EXPECT_FALSE(judged.clash) << "sample " << i;
      }
    }
  }
  EXPECT_GT(proven, 40);
}

}  // namespace
}  // namespace swingroom
