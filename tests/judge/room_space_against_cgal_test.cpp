// The rooms of the tug's parts, and those of small mechanisms, held against CGAL: are they closed and manifold; is every
// grid point in them free at many instants; is every point that is freer than they say in them.
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <random>

#include "core/files/loading/load_assembly.h"
#include "core/room/space/crossing_repair.h"
#include "core/room/space/room_space.h"
#include "core/room/space/solid_merge.h"
#include "core/room/space/space_mesh.h"
#include "core/sweep/sweep.h"
#include "tests/judge/cgal_judge.h"
#include "tests/support/mechanism.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

constexpr double kPitchMm = 0.25;

const LoadedAssembly& tugToJudge() {
  static const Outcome<LoadedAssembly> tug =
      loadAssembly(std::filesystem::path(SWINGROOM_SOURCE) / "sample_assemblies/harbour_tug/harbour_tug.swing.json",
                   MeshReader::besideThisProgram(), defaultThreads());
  return tug.value();
}

/// Every corner moved out along the mean of its faces' normals.
TriangleMesh grownBy(const TriangleMesh& mesh, double byMm) {
  std::vector<Vector3d> normals(mesh.vertices.size(), Vector3d::Zero());
  for (const Triangle& t : mesh.triangles) {
    const Vector3d& a = mesh.vertices[t[0]];
    const Vector3d normal = (mesh.vertices[t[1]] - a).cross(mesh.vertices[t[2]] - a);
    for (const std::uint32_t v : t) normals[v] += normal;
  }
  TriangleMesh grown = mesh;
  for (std::size_t v = 0; v < normals.size(); ++v) {
    if (normals[v].norm() > 0) grown.vertices[v] += byMm * normals[v].normalized();
  }
  return grown;
}

/// Pairs with findings when `mesh` stands for the part.
std::size_t findingsWith(const LoadedAssembly& loaded, PartId part, const TriangleMesh& mesh) {
  const Assembly& as = loaded.assembly;
  AssemblyParts parts{as.name(), 0.3, as.resolutionMm(), as.parts(), as.joints(), as.pairRules()};
  parts.parts[part.index].mesh = std::make_shared<const TriangleMesh>(mesh);
  const Assembly changed(std::move(parts));
  const AssemblyGeometry geometry = prepareGeometry(changed, defaultThreads());
  WorkMonitor monitor;
  std::size_t findings = 0;
  for (const Sequence& way : waysToCheck(loaded.modes, loaded.sequences)) {
    for (const PairResult& pair : sweep(changed, loaded.modes, way, geometry, {}, monitor).pairs) {
      findings += pair.verdict != Verdict::clear && pair.verdict != Verdict::allowed;
    }
  }
  return findings;
}

class TugRoom : public testing::TestWithParam<const char*> {};

// What it is for: the room in the part's place passes the whole check; a little more of it does not.
TEST_P(TugRoom, IsSoundPassesTheCheckAndNoMoreDoes) {
  const LoadedAssembly& tug = tugToJudge();
  const std::vector<Sequence> ways = waysToCheck(tug.modes, tug.sequences);
  const AssemblyGeometry geometry = prepareGeometry(tug.assembly, defaultThreads());
  const PartId part = *tug.assembly.findPart(GetParam());
  const SpaceSubject subject{tug.assembly, tug.modes, ways, geometry, part};
  SpaceSettings settings;
  const bool isHead = std::string(GetParam()) == "head";
  // The head at 0.25 mm takes minutes to be judged: with SWINGROOM_LONG=1 in the environment.
  settings.pitchMm = isHead && std::getenv("SWINGROOM_LONG") ? kPitchMm : 2 * kPitchMm;
  settings.within = WithinGrown{2};
  WorkMonitor monitor;
  const auto space = roomSpace(subject, settings, monitor);
  ASSERT_TRUE(space.ok());
  EXPECT_TRUE(space->objections.empty());
  const judge::Soundness sound = judge::soundnessOf(space->mesh);
  EXPECT_TRUE(sound.manifold);
  EXPECT_TRUE(sound.closed);
  EXPECT_EQ(sound.crossings, 0u);
  EXPECT_EQ(space->crossings, 0u);
  EXPECT_EQ(findingsWith(tug, part, space->mesh), 0u);
  EXPECT_GT(findingsWith(tug, part, grownBy(space->mesh, 0.6)), 0u);
}

INSTANTIATE_TEST_SUITE_P(Parts, TugRoom, testing::Values("head", "funnel_port", "forearm_port"));

// Unions of solids at random: what is counted as crossing before the repair is what CGAL counts; nothing after it.
TEST(CrossingsAgainstCgal, AreTheSameBeforeAndNoneAfterTheRepair) {
  std::mt19937_64 random(20261127);
  const TriangleMesh ball = shapes::sphere(3, 4), ring = shapes::torus(4, 1.5, 96, 48);
  std::size_t before = 0;
  for (int i = 0; i < 10; ++i) {
    WorkMonitor monitor;
    const auto merge = SolidMerge::of(ball, shapes::moved(ring, shapes::randomPose(random, 4)), monitor);
    ASSERT_TRUE(merge) << "case " << i << " of seed 20261127";
    TriangleMesh mesh = merge->united({});
    // Coarser than files are, so that there is something to mend.
    for (Vector3d& p : mesh.vertices) p = inFilePrecision((p * 2048).array().round().matrix() / 2048);
    const Crossings were = crossingsIn(mesh, 1, monitor);
    const auto cgal = judge::soundnessOf(mesh);
    if (cgal.manifold) {
      EXPECT_EQ(were.pairs + were.flats, cgal.crossings) << "case " << i << " of seed 20261127";
    }
    before += were.pairs;
    auto ready = readyForFiles(merge->united({}), Eigen::Affine3d::Identity(), 2, monitor);
    ASSERT_TRUE(ready) << i;
    EXPECT_EQ(ready->crossings, 0u) << i;
    EXPECT_EQ(judge::soundnessOf(ready->mesh).crossings, 0u) << "case " << i << " of seed 20261127";
  }
  EXPECT_GT(before, 20u);
}

/// A crooked part on a hinge, a post and a plate that slides while it turns.
Mechanism crowded() {
  Mechanism mechanism;
  const PartId part = mechanism.addPart("part", shapes::box({1, -1, -1}, {5, 1, 1}));
  mechanism.addPart("post", shapes::moved(shapes::cylinder(1, -4, 4, 16), translation({5.5, 5, 0})));
  const PartId plate = mechanism.addPart("plate", shapes::box({0, -5, 2}, {6, -2.5, 3}));
  const JointId hinge = mechanism.addHinge(part, std::nullopt, kOrigin, Vector3d(0.2, 0, 1));
  const JointId slide = mechanism.addSlide(plate, std::nullopt, Vector3d(0, 1, 0));
  mechanism.addStep({{hinge, deg(25)}, {slide, {4, 0, 0}}});
  return mechanism;
}

TEST(RoomAgainstVoxels, EveryPointInItIsFreeAndEveryFreerPointIsInIt) {
  const Mechanism mechanism = crowded();
  const Assembly assembly = mechanism.assembly();
  const std::vector<Mode> modes = mechanism.modes();
  const std::vector<Sequence> ways{mechanism.sequence()};
  const AssemblyGeometry geometry = prepareGeometry(assembly, 1);
  const SpaceSubject subject{assembly, modes, ways, geometry, PartId{0}};
  SpaceSettings settings;
  settings.within = WithinBox{{Vector3d(0, -3, -3), Vector3d(6.4, 4, 1.5)}};
  WorkMonitor monitor;
  const auto space = roomSpace(subject, settings, monitor);
  ASSERT_TRUE(space.ok());
  ASSERT_EQ(space->pocketsLeftOut, 0u) << "a pocket's points would be free and not in it";
  const auto& box = std::get<WithinBox>(settings.within).box_P;
  std::vector<Vector3d> points;
  for (double x = box.min().x() + 0.21; x < box.max().x(); x += 0.4) {
    for (double y = box.min().y() + 0.17; y < box.max().y(); y += 0.4) {
      for (double z = box.min().z() + 0.13; z < box.max().z(); z += 0.4) points.emplace_back(x, y, z);
    }
  }
  const auto inside = judge::sidesOf(space->mesh, points);
  std::vector<double> free(points.size(), std::numeric_limits<double>::infinity());
  constexpr int kInstants = 60;
  for (int i = 0; i <= kInstants; ++i) {
    const auto poses = posesOf(assembly, configurationAt(assembly, ways[0], static_cast<double>(i) / kInstants));
    for (std::size_t other : {std::size_t{1}, std::size_t{2}}) {
      const TriangleMesh& mesh = *assembly.parts()[other].mesh;
      const Pose X_OP = poses[other].inverse() * poses[0];
      std::vector<Vector3d> there;
      for (const Vector3d& p : points) there.push_back(X_OP * p);
      const auto sides = judge::sidesOf(mesh, there);
      const auto distances = judge::distancesTo(mesh, there);
      for (std::size_t p = 0; p < points.size(); ++p) {
        free[p] = std::min(free[p], (sides[p] == judge::Side::outside ? distances[p] : 0) - 0.3);
      }
    }
  }
  // Between two instants a point moves by no more than 25 degrees on a radius below 11 and 4 mm, in 60 pieces.
  const double betweenMm = 0.5 * (11 * radFromDeg(25) + 4) / kInstants;
  std::size_t in = 0, out = 0;
  for (std::size_t p = 0; p < points.size(); ++p) {
    const bool isIn = inside[p] != judge::Side::outside;
    if (isIn) {
      EXPECT_GE(free[p], -1e-4) << points[p].transpose();
    }
    const double toBox = std::min((points[p] - box.min()).minCoeff(), (box.max() - points[p]).minCoeff());
    if (std::min(free[p] - betweenMm, toBox) > space->mostLossMm) {
      EXPECT_TRUE(isIn) << points[p].transpose();
    }
    (isIn ? in : out) += 1;
  }
  EXPECT_GT(in, 100u);
  EXPECT_GT(out, 100u);
}

}  // namespace
}  // namespace swingroom
