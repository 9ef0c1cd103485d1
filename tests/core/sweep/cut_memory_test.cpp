#include "core/sweep/cut_memory.h"

#include <gtest/gtest.h>

#include "tests/support/shapes.h"

namespace swingroom {
namespace {

std::shared_ptr<const TriangleMesh> boxMesh(double size) {
  return std::make_shared<const TriangleMesh>(shapes::box({0, 0, 0}, {size, size, size}));
}

Joint zonedHinge(double radiusMm) {
  Joint joint;
  joint.type = JointType::hinge;
  joint.through = {5, 5, 0};
  joint.along = kZ;
  joint.zones = {{radiusMm, -1, 11}};
  return joint;
}

bool sameMesh(const TriangleMesh& a, const TriangleMesh& b) {
  return a.vertices == b.vertices && a.triangles == b.triangles;
}

TEST(CutMemoryTest, WhatIsKeptIsWhatCuttingGives) {
  const auto mesh = boxMesh(10);
  const Joint joint = zonedHinge(2);
  const CutPart cut = cutAtZones(*mesh, Pose::Identity(), {&joint});
  const CutPart first = cutAtZones(mesh, Pose::Identity(), {&joint});
  const CutPart again = cutAtZones(mesh, Pose::Identity(), {&joint});
  EXPECT_TRUE(sameMesh(*first.outside->mesh, *cut.outside->mesh));
  EXPECT_TRUE(sameMesh(*first.inside->mesh, *cut.inside->mesh));
  EXPECT_EQ(first.insideAreaMm2, cut.insideAreaMm2);
  EXPECT_EQ(again.outside, first.outside) << "cut once";
}

TEST(CutMemoryTest, AnotherZonePlaceOrMeshIsAnotherCut) {
  const auto mesh = boxMesh(10), equal = boxMesh(10);
  const Joint joint = zonedHinge(2), wider = zonedHinge(2.5);
  const CutPart first = cutAtZones(mesh, Pose::Identity(), {&joint});
  EXPECT_NE(cutAtZones(mesh, Pose::Identity(), {&wider}).outside, first.outside);
  EXPECT_NE(cutAtZones(mesh, translation({1, 0, 0}), {&joint}).outside, first.outside);
  EXPECT_NE(cutAtZones(mesh, Pose::Identity(), {&joint, &wider}).outside, first.outside);
  EXPECT_NE(cutAtZones(equal, Pose::Identity(), {&joint}).outside, first.outside);
}

TEST(CutMemoryTest, CutsOfMeshesThatAreGoneGoAndOldOnesMakeRoom) {
  const Joint joint = zonedHinge(2);
  auto gone = boxMesh(10);
  const CutPart cut = cutAtZones(*gone, Pose::Identity(), {&joint});
  const std::size_t each = cut.inside->mesh->triangles.size() + cut.outside->mesh->triangles.size();
  CutMemory memory(2 * each);
  const auto a = boxMesh(10), b = boxMesh(10), c = boxMesh(10);
  memory.keep(gone, {}, cut);
  gone.reset();
  memory.keep(a, {}, cut);
  memory.keep(b, {}, cut);
  EXPECT_TRUE(memory.find(a, {}).has_value()) << "the one that is gone took no room";
  memory.keep(c, {}, cut);
  EXPECT_TRUE(memory.find(a, {}).has_value()) << "used last";
  EXPECT_FALSE(memory.find(b, {}).has_value());
  EXPECT_FALSE(memory.find(boxMesh(10), {}).has_value()) << "at whatever address";
}

}  // namespace
}  // namespace swingroom
