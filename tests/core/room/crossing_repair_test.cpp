// Triangles of a mesh that cross each other: found exactly, and mended where rounding has folded
// them.
#include "core/room/space/crossing_repair.h"

#include <gtest/gtest.h>

#include <random>
#include <set>

#include "core/room/space/box_tree.h"
#include "core/room/space/exact_sign.h"
#include "core/room/space/triangle_meeting.h"
#include "tests/core/room/space_fixture.h"

namespace swingroom {
namespace {

using Places = std::vector<Vector3d>;

bool meet(const Places& corners, const Triangle& a, const Triangle& b) {
  const TriangleMesh mesh{corners, {a, b}};
  const bool meet = meetBeyondShared(mesh, a, b);
  EXPECT_EQ(meetBeyondShared(mesh, b, a), meet) << "whichever is first";
  return meet;
}

std::set<std::pair<std::uint32_t, std::uint32_t>> allMeetings(const TriangleMesh& mesh) {
  std::set<std::pair<std::uint32_t, std::uint32_t>> pairs;
  for (std::uint32_t a = 0; a < mesh.triangles.size(); ++a) {
    for (std::uint32_t b = a + 1; b < mesh.triangles.size(); ++b) {
      if (meetBeyondShared(mesh, mesh.triangles[a], mesh.triangles[b])) pairs.emplace(a, b);
    }
  }
  return pairs;
}

std::size_t flatsIn(const TriangleMesh& mesh) {
  return static_cast<std::size_t>(
      std::count_if(mesh.triangles.begin(), mesh.triangles.end(),
                    [&](const Triangle& t) { return isFlat(mesh, t); }));
}

// The sign of a determinant of integers, by integers.
TEST(ExactSide, IsThatOfIntegersWherePointsAreNearlyInAPlane) {
  std::mt19937_64 random(20261127);
  std::uniform_int_distribution<std::int64_t> along(-(1 << 20), 1 << 20), step(-1, 1);
  constexpr double kStep = 1.0 / (1 << 20);
  std::array<int, 3> seen{};
  for (int i = 0; i < 20000; ++i) {
    std::array<Eigen::Matrix<std::int64_t, 3, 1>, 4> p;
    for (int k = 0; k < 3; ++k)
      p[static_cast<std::size_t>(k)] = {along(random), along(random), along(random)};
    // The middle of two of them, to a step, or one of them turned round another: in their plane.
    p[3] = (p[0] + p[1]) / 2 +
           Eigen::Matrix<std::int64_t, 3, 1>(step(random), step(random), step(random));
    if (i % 4 == 0) p[3] = p[0] + p[1] - p[2];
    const Eigen::Matrix<std::int64_t, 3, 1> u = p[1] - p[0], v = p[2] - p[0], w = p[3] - p[0];
    using Wide = __int128;
    const Wide six = u[0] * (Wide{v[1]} * w[2] - Wide{v[2]} * w[1]) +
                     u[1] * (Wide{v[2]} * w[0] - Wide{v[0]} * w[2]) +
                     u[2] * (Wide{v[0]} * w[1] - Wide{v[1]} * w[0]);
    const int expected = six > 0 ? 1 : six < 0 ? -1 : 0;
    std::array<Vector3d, 4> q;
    for (std::size_t k = 0; k < 4; ++k) q[k] = p[k].cast<double>() * kStep;
    ASSERT_EQ(exact::side(q[0], q[1], q[2], q[3]), expected) << "case " << i << " of seed 20261127";
    ++seen[static_cast<std::size_t>(expected + 1)];
  }
  for (const int count : seen) EXPECT_GT(count, 100);
}

TEST(TrianglesOfAMesh, MeetBeyondWhatTheyShare) {
  const Places corners{{0, 0, 0}, {4, 0, 0}, {0, 4, 0},   {1, 1, -1}, {1, 1, 1},
                       {9, 9, 0}, {4, 4, 0}, {1, 0.5, 0}, {0, 0, 3},  {3, 3, 0}};
  EXPECT_TRUE(meet(corners, {0, 1, 2}, {3, 4, 5})) << "one goes through the other";
  EXPECT_FALSE(meet(corners, {0, 1, 2}, {5, 6, 8})) << "apart";
  EXPECT_FALSE(meet(corners, {0, 1, 2}, {1, 6, 2})) << "side by side in a plane";
  EXPECT_TRUE(meet(corners, {0, 1, 2}, {0, 1, 7})) << "folded onto it";
  EXPECT_FALSE(meet(corners, {0, 1, 2}, {1, 0, 8})) << "a step at a shared edge";
  EXPECT_TRUE(meet(corners, {0, 1, 2}, {0, 3, 4})) << "at a corner, and through it";
  EXPECT_FALSE(meet(corners, {0, 1, 2}, {0, 4, 8})) << "at a corner alone";
  EXPECT_TRUE(meet(corners, {0, 1, 2}, {7, 4, 8})) << "a corner on it";
  EXPECT_TRUE(meet(corners, {0, 1, 2}, {7, 5, 9})) << "across each other in a plane";
  EXPECT_FALSE(meet(corners, {0, 1, 2}, {5, 9, 6})) << "apart in a plane";
  EXPECT_TRUE(isFlat({corners, {}}, {6, 9, 0}));
  EXPECT_FALSE(isFlat({corners, {}}, {0, 1, 7}));
}

TEST(BoxTree, FindsThePairsThatAllPairsFind) {
  // Two rings through each other: each crosses the other twice.
  TriangleMesh mesh =
      shapes::joined({shapes::torus(4, 1.5, 40, 20),
                      shapes::moved(shapes::torus(4, 1.5, 40, 20), translation({2, 1, 1.3}))});
  for (Vector3d& p : mesh.vertices) p = inFilePrecision(p);
  const auto expected = allMeetings(mesh);
  EXPECT_GT(expected.size(), 100u);
  WorkMonitor monitor;
  const auto isWanted = [&](std::uint32_t a, std::uint32_t b) {
    return meetBeyondShared(mesh, mesh.triangles[a], mesh.triangles[b]);
  };
  for (const unsigned threads : {1u, 3u}) {
    const auto found = BoxTree(mesh).pairs(isWanted, threads, monitor);
    EXPECT_TRUE(std::equal(found.begin(), found.end(), expected.begin(), expected.end()));
  }
}

/// A box of 2 with corners more, each meant to lie on an edge of a triangle that it divides into
/// three, and pushed beyond that edge by two steps of a file's precision: so is the sliver along it
/// folded.
TriangleMesh boxWithFolds(int folds) {
  TriangleMesh mesh = shapes::box({0, 0, 0}, {2, 2, 2});
  std::mt19937_64 random(7);
  for (int i = 0; i < folds; ++i) {
    const auto t = static_cast<std::size_t>(random() % mesh.triangles.size());
    const auto [a, b, c] = mesh.triangles[t];
    const Vector3d &pa = mesh.vertices[a], &pb = mesh.vertices[b], &pc = mesh.vertices[c];
    const double share = 0.25 + 0.5 * static_cast<double>(i + 1) / (folds + 1);
    const Vector3d on = pa + share * (pb - pa);
    const auto v = static_cast<std::uint32_t>(mesh.vertices.size());
    mesh.vertices.push_back(inFilePrecision(on - 2e-6 * (pc - on).normalized()));
    mesh.triangles[t] = {a, b, v};
    mesh.triangles.push_back({b, c, v});
    mesh.triangles.push_back({c, a, v});
  }
  return mesh;
}

TEST(CrossingRepair, UnfoldsWhatRoundingHasFolded) {
  std::size_t before = 0;
  for (int folds = 1; folds <= 8; ++folds) {
    TriangleMesh mesh = boxWithFolds(folds);
    before += allMeetings(mesh).size() + flatsIn(mesh);
    WorkMonitor monitor;
    EXPECT_TRUE(repairCrossings(mesh, 1e-3, 1, monitor).none()) << folds;
    EXPECT_TRUE(allMeetings(mesh).empty()) << folds;
    EXPECT_EQ(flatsIn(mesh), 0u) << folds;
    expectSound(mesh);
    EXPECT_NEAR(massProperties(mesh).volumeMm3, 8, 24 * 1e-3);
    EXPECT_LE((boundsOf(mesh).max() - Vector3d(2, 2, 2)).cwiseAbs().maxCoeff(), 1e-3);
  }
  EXPECT_GT(before, 8u);
}

TEST(CrossingRepair, LeavesASoundSurfaceAsItIs) {
  TriangleMesh mesh = shapes::sphere(3, 3);
  for (Vector3d& p : mesh.vertices) p = inFilePrecision(p);
  const TriangleMesh was = mesh;
  WorkMonitor monitor;
  EXPECT_TRUE(repairCrossings(mesh, 1e-3, 1, monitor).none());
  EXPECT_EQ(mesh, was);
}

TEST(CrossingRepair, TellsOfASurfaceThatReallyCrossesItself) {
  TriangleMesh mesh =
      shapes::joined({shapes::box({0, 0, 0}, {2, 2, 2}), shapes::box({1, 1, 1}, {3, 3, 3})});
  WorkMonitor monitor;
  const Crossings left = repairCrossings(mesh, 1e-3, 1, monitor);
  EXPECT_GT(left.pairs, 0u);
  EXPECT_NEAR(massProperties(mesh).volumeMm3, 16, 48e-3);
}

TEST(FilePrecision, IsTheSameReadBackFromSixDecimalsAndFromFloats) {
  std::mt19937_64 random(11);
  std::uniform_real_distribution<double> near(-0.01, 0.01), far(-300, 300);
  for (int i = 0; i < 20000; ++i) {
    const Vector3d p = inFilePrecision({near(random), far(random), far(random) * near(random)});
    for (int d = 0; d < 3; ++d) {
      ASSERT_EQ(static_cast<float>(p[d]), p[d]);
      ASSERT_EQ(std::strtof(std::to_string(p[d]).c_str(), nullptr), p[d])
          << "written as " << std::to_string(p[d]);
    }
  }
}

}  // namespace
}  // namespace swingroom
