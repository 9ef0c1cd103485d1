// The sampled gap of a pair, against closed forms.
#include "core/sweep/gap_curve.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/files/loading/load_assembly.h"
#include "tests/support/mechanism.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

using shapes::box;

std::vector<GapSample> curveOf(const Mechanism& mechanism, const GapCurveQuestion& question) {
  const Assembly assembly = mechanism.assembly();
  return gapCurve(assembly, mechanism.sequence(), prepareGeometry(assembly, 1), PartId{0},
                  PartId{1}, question);
}

// check_values M-1 (K): rectangle 40 x 30 turned from 0 to -90 degrees about its corner, wall at x
// = 52.
TEST(GapCurve, TurningRectanglePassesTheWallAsTheClosedFormSays) {
  Mechanism mechanism;
  const PartId wall = mechanism.addPart("wall", box({52, -200, -5}, {60, 200, 15}));
  const PartId plate = mechanism.addPart("plate", box({0, 0, 0}, {40, 30, 10}));
  mechanism.addStep(mechanism.addHinge(plate, wall, Vector3d::Zero(), Vector3d::UnitZ()), deg(-90));
  const std::vector<std::pair<double, double>> table = {
      {0, 12},         {10, 7.3982445}, {20, 4.1516909}, {30, 2.3589838},
      {36.8698976, 2}, {45, 2.5025253}, {60, 6.0192379}, {90, 22}};
  GapCurveQuestion question;
  question.capMm = 100;
  for (const auto& [angle, gapMm] : table) question.instants.push_back(angle / 90);
  const auto curve = curveOf(mechanism, question);
  ASSERT_EQ(curve.size(), table.size());
  for (std::size_t i = 0; i < table.size(); ++i) {
    EXPECT_EQ(curve[i].instant, question.instants[i]);
    EXPECT_NEAR(curve[i].gapMm, table[i].second, 1e-6) << table[i].first;  // Printed to 7 decimals.
  }
}

TEST(GapCurve, FarGapsAreTheCapAndInstantsKeepTheirOrder) {
  Mechanism mechanism;
  const PartId wall = mechanism.addPart("wall", box({30, -10, -10}, {35, 10, 10}));
  const PartId slider = mechanism.addPart("slider", box({0, -3, -3}, {10, 3, 3}));
  mechanism.addStep(mechanism.addSlide(slider, wall, Vector3d::UnitX()), {19, 0, 0});
  GapCurveQuestion question;
  question.instants = {1, 0, 0.5};
  const auto curve = curveOf(mechanism, question);
  EXPECT_NEAR(curve[0].gapMm, 1, 1e-9);  // 30 - 10 - 19.
  EXPECT_EQ(curve[1].gapMm, 2);
  EXPECT_EQ(curve[2].gapMm, 2);
}

// The cube's leading face goes x past the wall's face at 20; while it has gone in by less than its
// distance from the wall's other faces, the depth is x - 20.
TEST(GapCurve, OverlapIsNegativeAndAsDeepAsItIs) {
  Mechanism mechanism;
  const PartId wall = mechanism.addPart("wall", box({20, -30, -30}, {120, 30, 30}));
  const PartId cube = mechanism.addPart("cube", box({-5, -5, -5}, {5, 5, 5}));
  mechanism.addStep(mechanism.addSlide(cube, wall, Vector3d::UnitX()), {25, 0, 0});
  GapCurveQuestion question;
  for (const double goneMm : {14.0, 16.0, 18.0, 25.0}) question.instants.push_back(goneMm / 25);
  const auto curve = curveOf(mechanism, question);
  EXPECT_NEAR(curve[0].gapMm, 1, 1e-9);
  EXPECT_NEAR(curve[1].gapMm, -1, 0.02);
  EXPECT_NEAR(curve[2].gapMm, -3, 0.02);
  EXPECT_NEAR(curve[3].gapMm, -10, 0.02);
  question.depthsToo = false;
  for (const GapSample& sample : curveOf(mechanism, question)) EXPECT_GE(sample.gapMm, 0);
}

TEST(GapCurve, PartWhollyInsideIsInOverlapThoughNoSurfacesCross) {
  Mechanism mechanism;
  const PartId room = mechanism.addPart("room", box({-10, -10, -10}, {10, 10, 10}));
  const PartId cube = mechanism.addPart("cube", box({-2, -2, -2}, {2, 2, 2}));
  mechanism.addStep(mechanism.addSlide(cube, room, Vector3d::UnitX()), {1, 0, 0});
  GapCurveQuestion question;
  question.instants = {0};
  EXPECT_NEAR(curveOf(mechanism, question)[0].gapMm, -8,
              0.02);  // A face's middle, 8 from the wall.
}

// A pin of radius 2 in a bore of 2.2, zone all over: what is left outside the zone are the blocks
// above.
TEST(GapCurve, InsideAJointZoneNothingCounts) {
  Mechanism mechanism;
  const PartId eye = mechanism.addPart(
      "eye", shapes::joined({shapes::tube(6, 2.2, -5, 5, 64), box({20, -5, -5}, {30, 5, 5})}));
  const PartId pin = mechanism.addPart(
      "pin", shapes::joined({shapes::cylinder(2, -5, 5, 64), box({20, -5, 6.25}, {30, 5, 8})}));
  const JointId hinge = mechanism.addHinge(pin, eye, Vector3d::Zero(), Vector3d::UnitZ());
  mechanism.addStep(hinge, deg(10));
  GapCurveQuestion question;
  question.instants = {0, 1};
  EXPECT_LT(curveOf(mechanism, question)[0].gapMm, 0.21);
  mechanism.joint(hinge).zones.push_back({7, -6, 6});
  EXPECT_NEAR(curveOf(mechanism, question)[0].gapMm, 1.25, 1e-9);
}

// sample_assemblies/hatch_box/README.md, "Gaps in closed form": box and lid, lid up by t at instant
// 1/2 + t/220. Coordinates in an STL are float32: 4e-6 mm.
TEST(GapCurve, HatchBoxLidKeepsTheGapsOfItsTable) {
  const auto file =
      std::filesystem::path(SWINGROOM_SOURCE) / "sample_assemblies/hatch_box/hatch_box.swing.json";
  const auto loaded = loadAssembly(file, MeshReader::besideThisProgram(), 1);
  ASSERT_TRUE(loaded);
  const Assembly& assembly = loaded->assembly;
  const std::vector<std::pair<double, double>> table = {
      {0, 0.8},       {5, 1.0},       {10, 0.798153}, {16.2602, 0.5},
      {20, 0.606472}, {36.8699, 0.9}, {110, 1.652607}};
  GapCurveQuestion question;
  for (const auto& [angle, gapMm] : table) question.instants.push_back(0.5 + angle / 220);
  const auto curve = gapCurve(assembly, loaded->sequences.at(0), prepareGeometry(assembly, 1),
                              *assembly.findPart("box"), *assembly.findPart("lid"), question);
  for (std::size_t i = 0; i < table.size(); ++i) {
    EXPECT_NEAR(curve[i].gapMm, table[i].second, 5e-6) << table[i].first;
  }
}

TEST(GapCurve, PartWithoutAMeshIsTheCallersMistake) {
  Mechanism mechanism;
  mechanism.addPart("box", box({0, 0, 0}, {1, 1, 1}));
  mechanism.addPart("nothing", TriangleMesh());
  EXPECT_THROW(curveOf(mechanism, {}), std::invalid_argument);
}

}  // namespace
}  // namespace swingroom
