// The sample hatch_box against its closed forms (sample_assemblies/hatch_box/README.md derives
// them; status K). Its STL files hold single precision: 4e-6 mm at these sizes.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "core/files/loading/load_assembly.h"
#include "core/sweep/sweep.h"

namespace swingroom {
namespace {

constexpr double kStlMm = 5e-6;
constexpr double kSampleResolutionMm = 0.01;

LoadedAssembly loadSample() {
  const auto file = std::filesystem::path(SWINGROOM_SOURCE) / "sample_assemblies/hatch_box/hatch_box.swing.json";
  Outcome<LoadedAssembly> loaded = loadAssembly(file, MeshReader::besideThisProgram(), 1);
  if (!loaded) throw std::runtime_error(toText(loaded.problems().front()));
  return std::move(loaded).value();
}

SequenceResult check(const LoadedAssembly& loaded, const Sequence& sequence) {
  WorkMonitor monitor;
  return sweep(loaded.assembly, loaded.modes, sequence, prepareGeometry(loaded.assembly, 1), {}, monitor);
}

const PairResult& pairOf(const LoadedAssembly& loaded, const SequenceResult& result, const char* a, const char* b) {
  const PartId idA = *loaded.assembly.findPart(a), idB = *loaded.assembly.findPart(b);
  for (const PairResult& pair : result.pairs) {
    if (std::minmax(pair.a, pair.b) == std::minmax(idA, idB)) return pair;
  }
  throw std::runtime_error("no such pair");
}

void expectBracketHolds(const GapBracket& gap, double trueMm) {
  ASSERT_TRUE(gap.upperMm.has_value());
  EXPECT_LE(gap.lowerMm, trueMm + kStlMm);
  EXPECT_GE(*gap.upperMm, trueMm - kStlMm);
  EXPECT_LE(*gap.upperMm - gap.lowerMm, kSampleResolutionMm);
}

void expectMode(const PairResult& pair, std::size_t mode, double trueMm) {
  ASSERT_TRUE(pair.modes.at(mode).upperMm.has_value());
  EXPECT_NEAR(pair.modes[mode].lowerMm, trueMm, kStlMm + 2e-6);
  EXPECT_NEAR(*pair.modes[mode].upperMm, trueMm, kStlMm + 2e-6);
}

TEST(HatchBox, EveryPairIsClearWithItsClosedFormGap) {
  const LoadedAssembly loaded = loadSample();
  const SequenceResult result = check(loaded, loaded.sequences.at(0));
  for (const PairResult& pair : result.pairs) EXPECT_EQ(pair.verdict, Verdict::clear);

  // Skirt edge (48, -14) past the wall at 50.5: 50.5 - 50, at atan(14/48).
  const PairResult& boxLid = pairOf(loaded, result, "box", "lid");
  expectBracketHolds(boxLid.gap, 50.5 - std::hypot(48, 14));
  EXPECT_NEAR(*boxLid.gap.instant, 0.5 + degFromRad(std::atan2(14, 48)) / 220, 0.01 / 220);
  expectMode(boxLid, 0, 0.8);
  const double t = radFromDeg(110);
  expectMode(boxLid, 1, 6.9 * std::sin(t) + 3.6 * std::cos(t) - 3.6);

  // Inside the zones: a corner of the pin against the middle of a flat.
  ASSERT_TRUE(boxLid.joint.has_value());
  expectBracketHolds(boxLid.joint->gap, 0.21);

  expectBracketHolds(pairOf(loaded, result, "box", "bolt").gap, 0.6);
  expectBracketHolds(pairOf(loaded, result, "lid", "bolt").gap, 0.4);
  EXPECT_EQ(*pairOf(loaded, result, "lid", "bolt").gap.instant, 0.0) << "equal all the way: the first instant";
}

TEST(HatchBox, WithItsStepsTheOtherWayRoundTheBoltClashesWhereTheClosedFormSays) {
  const LoadedAssembly loaded = loadSample();
  Sequence swapped = loaded.sequences.at(0);
  ASSERT_EQ(swapped.steps.size(), 2u);
  const std::size_t hinge = loaded.assembly.findJoint("lid hinge")->index;
  const std::size_t slide = loaded.assembly.findJoint("bolt slide")->index;
  Configuration middle = swapped.steps[0].start;
  middle.values[hinge] = swapped.steps[1].end.values[hinge];
  ASSERT_NE(middle.values[hinge], swapped.steps[0].start.values[hinge]);
  ASSERT_EQ(middle.values[slide], swapped.steps[0].start.values[slide]);
  swapped.steps[0].end = middle;
  swapped.steps[1].start = middle;
  const SequenceResult result = check(loaded, swapped);
  const PairResult& pair = pairOf(loaded, result, "box", "bolt");
  EXPECT_EQ(pair.verdict, Verdict::clash);
  const auto clash = std::find_if(pair.stretches.begin(), pair.stretches.end(),
                                  [](const Stretch& stretch) { return stretch.verdict == Verdict::clash; });
  ASSERT_NE(clash, pair.stretches.end());
  // 53.1 sin t + 8.1 cos t = 8.7.
  const double angle = degFromRad(std::asin(8.7 / std::hypot(53.1, 8.1)) - std::atan2(8.1, 53.1));
  EXPECT_NEAR(clash->from, angle / 220, 1e-4);
  EXPECT_EQ(clash->mover, JointId{hinge});
}

}  // namespace
}  // namespace swingroom
