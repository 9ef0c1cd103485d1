// The harbour tug's pins and holes, and the depths of the draft's faults that have no closed form, by CGAL.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "core/files/mesh_file.h"
#include "core/tree/point_query.h"
#include "tests/judge/cgal_judge.h"
#include "tests/support/mechanism.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

const std::filesystem::path kSamples = std::filesystem::path(SWINGROOM_SOURCE) / "sample_assemblies";

TriangleMesh partOf(const std::string& file) {
  Outcome<MeshFile> read = MeshReader::besideThisProgram().read(kSamples / file);
  if (!read) throw std::runtime_error(toText(read.problems().front()));
  return read->mesh;
}

struct PinInHole {
  const char* pin;
  Vector3d at;
  const char* part;
  double leastMm, mostMm;  ///< A side.
};

// Drawn: 0.2 a side where a pin turns, 0.005 where it is pressed in; round faces stray by up to 0.04, into the hole
// only (corners of both are on the true circle), and a pressed pin may touch.
const PinInHole kPins[] = {
    {"pin", {0, 9.2, 13}, "thigh", 0.2, 0.245},        {"pin", {0, 9.2, 13}, "torso", 0, 0.05},
    {"pin", {22, 9.2, 4.5}, "knee_link", 0.2, 0.245},  {"pin", {22, 9.2, 4.5}, "thigh", 0, 0.05},
    {"pin", {32, 9.2, 4.5}, "shin", 0.2, 0.245},       {"pin", {32, 9.2, 4.5}, "knee_link", 0, 0.05},
    {"pin", {50, 12, 7.5}, "foot", 0.2, 0.245},        {"pin", {50, 12, 7.5}, "shin", 0, 0.05},
    {"small_pin", {-15, 18.5, 9}, "forearm", 0.2, 0.245}, {"small_pin", {-15, 18.5, 9}, "upper_arm", 0, 0.05},
    {"small_pin", {-12, 0, 10.6}, "head", 0.2, 0.245}, {"small_pin", {-12, 0, 10.6}, "carriage", 0, 0.05},
    {"small_pin", {-39.4, 0, 3.2}, "stern_board", 0.2, 0.245}, {"small_pin", {-39.4, 0, 3.2}, "torso", 0, 0.05}};

TEST(TugAgainstCgal, PinsTurnAndHoldByTheirClearances) {
  for (const auto& [pin, at, part, leastMm, mostMm] : kPins) {
    const TriangleMesh placed = shapes::moved(partOf(std::string("harbour_tug/parts/") + pin + ".stl"), translation(at));
    const TriangleMesh hole = partOf(std::string("harbour_tug/parts/") + part + ".stl");
    const double gapMm = std::sqrt(judge::squaredDistance(placed, hole));
    EXPECT_GE(gapMm, leastMm - 1e-5) << pin << " in " << part;
    EXPECT_LE(gapMm, mostMm) << pin << " in " << part;
  }
}

/// Points all over `mesh`, at most `spacingMm` apart along its triangles' sides.
std::vector<Vector3d> pointsOver(const TriangleMesh& mesh, double spacingMm) {
  std::vector<Vector3d> points;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const Vector3d a = mesh.corner(t, 0), b = mesh.corner(t, 1), c = mesh.corner(t, 2);
    const int n = 1 + static_cast<int>(std::max({(b - a).norm(), (c - b).norm(), (a - c).norm()}) / spacingMm);
    for (int i = 0; i <= n; ++i) {
      for (int j = 0; i + j <= n; ++j) points.push_back(a + (b - a) * i / n + (c - a) * j / n);
    }
  }
  return points;
}

/// How deep the deepest of many points of `surface` is in `solid`. Which one it is, our own query says, which
/// inside_against_cgal_test.cpp holds against CGAL; on which side and how far from the boundary, CGAL.
double sampledDepth(const TriangleMesh& surface, const TriangleMesh& solid) {
  const std::vector<Vector3d> points = pointsOver(surface, 0.5);
  const std::vector<judge::Side> sides = judge::sidesOf(solid, points);
  const BoundingTree tree(solid);
  double deepest = 0;
  Vector3d place = Vector3d::Zero();
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (sides[i] != judge::Side::inside) continue;
    const double distanceMm = closestPoint(tree, points[i])->distanceMm;
    if (distanceMm > deepest) deepest = distanceMm, place = points[i];
  }
  return deepest > 0 ? std::sqrt(judge::squaredDistance(solid, place)) : 0;
}

// Fault 3 of the draft: the starboard hip turns the wrong way, 90 degrees in one step here.
TEST(TugAgainstCgal, HipThatTurnsTheWrongWayIsAsDeepAsTold) {
  const TriangleMesh torso = partOf("harbour_tug_draft/parts/torso.stl");
  TriangleMesh thigh = partOf("harbour_tug/parts/thigh.stl");
  for (Vector3d& v : thigh.vertices) v.y() = -v.y();
  thigh = shapes::reversed(thigh);
  const Vector3d through(0, -9.2, 13);
  Mechanism mechanism;
  const PartId parent = mechanism.addPart("torso", torso);
  const PartId child = mechanism.addPart("thigh", thigh);
  mechanism.addStep(mechanism.addHinge(child, parent, through, Vector3d::UnitY()), deg(90));
  const PairResult pair = mechanism.checkFirstPair();
  ASSERT_FALSE(pair.stretches.empty());
  const Stretch& clash = pair.stretches.back();
  ASSERT_EQ(clash.verdict, Verdict::clash);
  // What harbour_tug_draft/README.md says.
  EXPECT_NEAR(*clash.depthMm, 7.07, 0.02);

  const auto thighAt = [&](double instant) {
    return shapes::moved(thigh, rotationAbout(through, Vector3d::UnitY(), radFromDeg(90 * instant)));
  };
  EXPECT_FALSE(judge::surfacesMeet(torso, thighAt(clash.from - 2e-4))) << "from " << clash.from;
  EXPECT_TRUE(judge::surfacesMeet(torso, thighAt(clash.from + 2e-4))) << "from " << clash.from;
  // One third of the way into its sequence, this step begins, and takes a third.
  EXPECT_NEAR((1 + clash.from) / 3, 0.3405, 0.005);
  const TriangleMesh deepest = thighAt(*clash.deepestAt);
  const Vector3d& place = *clash.point_W;
  const double toTorso = std::sqrt(judge::squaredDistance(torso, place));
  const double toThigh = std::sqrt(judge::squaredDistance(deepest, place));
  EXPECT_NEAR(std::min(toTorso, toThigh), 0, 1e-6) << "the place is on neither surface";
  EXPECT_NEAR(std::max(toTorso, toThigh), *clash.depthMm, 0.02);
  for (double instant = *clash.deepestAt - 0.15; instant <= 1; instant += 0.05) {
    const TriangleMesh moved = thighAt(instant);
    EXPECT_LE(sampledDepth(moved, torso), *clash.depthMm + 0.02) << "at " << instant;
    EXPECT_LE(sampledDepth(torso, moved), *clash.depthMm + 0.02) << "at " << instant;
  }
}

}  // namespace
}  // namespace swingroom
