// What is told when a detail mesh is held against its block, and what is not.
#include <gtest/gtest.h>

#include <random>

#include "core/stages/stage_notes.h"
#include "tests/core/stages/stage_shapes.h"

namespace swingroom {
namespace {

using shapes::inFloats;
using shapes::stage;

Problems notesOf(const TriangleMesh& block, const TriangleMesh& detail,
                 const std::vector<JointLine>& joints = {}) {
  return stageNotes("d.stl", stageFaultsOf(stage(block), stage(detail), joints));
}

std::string text(const Problems& notes) {
  std::string all;
  for (const Problem& note : notes) all += toText(note) + "\n";
  return all;
}

// Floor and walls of 1.2 mm; those at x = 0 and x = 30 are made 0.7 mm from the inside.
TEST(StageFaults, AWallThatWasThinnedIsTold) {
  const TriangleMesh block = shapes::tray({30, 20, 12}, 1.2);
  TriangleMesh detail = block;
  for (Vector3d& v : detail.vertices) {
    if (std::abs(v.x() - 1.2) < 1e-9) v.x() = 0.7;
    if (std::abs(v.x() - 28.8) < 1e-9) v.x() = 29.3;
  }
  const StageFaults faults = stageFaultsOf(stage(block), stage(inFloats(detail)), {});
  ASSERT_TRUE(faults.thinned);
  EXPECT_NEAR(faults.thinned->beforeMm, 1.2, 1e-5);
  EXPECT_NEAR(faults.thinned->afterMm, 0.7, 1e-5);
  EXPECT_LT(std::min(faults.thinned->at.x(), 30 - faults.thinned->at.x()), 1.2);
  EXPECT_NE(text(stageNotes("d.stl", faults)).find("is 0.70 mm thick or less; in the block it is 1.20 mm there"),
            std::string::npos);
}

TEST(StageFaults, AWallThatIsAsThickOrThickerIsNot) {
  const TriangleMesh block = shapes::tray({30, 20, 12}, 1.2);
  EXPECT_EQ(text(notesOf(block, block)), "");
  TriangleMesh thicker = block;
  for (Vector3d& v : thicker.vertices) {
    if (std::abs(v.x() - 1.2) < 1e-9) v.x() = 1.6;
  }
  EXPECT_EQ(text(notesOf(block, thicker)), "");
  // Grooves of 0.25 mm outside.
  const TriangleMesh grooved = shapes::sculpted(shapes::splitFiner(block, 5), [](const Vector3d& p) {
    return p.x() < 1e-9 && std::fmod(p.z(), 3.0) < 0.4 && p.z() > 2 ? -0.25 : 0.0;
  });
  EXPECT_EQ(text(notesOf(block, grooved)), "");
}

TEST(StageFaults, AHoleThatWasFilledIsTold) {
  const std::string told = text(notesOf(shapes::plateWithHole(6, 4, 1.5, 48), shapes::box({-6, -6, 0}, {6, 6, 4})));
  EXPECT_EQ(told,
            "d.stl: 3.00 mm hole at (0.00, 0.00, 2.00) is filled (closing or remeshing the surface may "
            "have filled it: cut it again)\n");
}

TEST(StageFaults, AJointsHoleThatMovedIsTold) {
  const JointLine neck{"neck", JointType::hinge, kOrigin, kZ};
  const std::string told = text(notesOf(shapes::plateWithHole(6, 4, 1.5, 48),
                                        shapes::plateWithHole(6, 4, 1.5, 48, {0.18, 0, 0}), {neck}));
  EXPECT_EQ(told,
            "d.stl: neck's 3.00 mm hole moved 0.18 mm towards +x (the joint stands where it did in the "
            "file: move one to the other)\n");
}

TEST(StageFaults, ASurfaceThatIsOpenNowIsTold) {
  const TriangleMesh block = shapes::box({0, 0, 0}, {20, 20, 10});
  TriangleMesh open = shapes::splitFiner(block, 3);
  open.triangles.erase(open.triangles.begin() + 40);
  EXPECT_EQ(text(notesOf(block, open)),
            "d.stl: is not closed any more: 3 open edges; its block is closed (close its surface)\n");
}

// Rivets as balls that stand in the hull, 0.4 to 1 mm high, and a hull in other triangles.
TEST(StageFaults, RivetsAreNoFault) {
  const TriangleMesh block = shapes::tray({40, 24, 14}, 1.6);
  const unsigned seed = 17;
  std::mt19937_64 random(seed);
  std::uniform_real_distribution<double> share(0.1, 0.9), size(0.4, 1.0);
  std::vector<TriangleMesh> meshes{shapes::splitFiner(block, 3)};
  for (int i = 0; i < 60; ++i) {
    const Vector3d at(40 * share(random), i % 2 ? 0 : 24, 14 * share(random));
    meshes.push_back(shapes::moved(shapes::sphere(size(random), 2), translation(at)));
  }
  EXPECT_EQ(text(notesOf(block, inFloats(shapes::joined(meshes)))), "") << "seed " << seed;
}

}  // namespace
}  // namespace swingroom
