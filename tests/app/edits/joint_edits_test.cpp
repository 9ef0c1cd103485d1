#include "app/edits/joint_edits.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/app/support/assemblies.h"

namespace swingroom {
namespace {

/// The hatch box's lid hinge has zones of radius 2.7 from -26.9 to -20.3 and from 20.3 to 26.9.
TEST(JointEdits, OneZoneIsSetAndNothingElseChanges) {
  const AssemblyDocument before = Bench::hatchBox().document();
  const AssemblyDocument after = edits::zone(before, "lid hinge", 1, {3.1, 19.5, 26.9});
  EXPECT_EQ(edits::zoneSize(after, "lid hinge", 1), (edits::ZoneSize{3.1, 19.5, 26.9}));
  EXPECT_EQ(edits::zoneSize(after, "lid hinge", 0), (edits::ZoneSize{2.7, -26.9, -20.3}));
  EXPECT_EQ(edits::zone(after, "lid hinge", 1, {2.7, 20.3, 26.9}), before);
}

TEST(JointEdits, WhatIsNoSizeOrNotThereChangesNothing) {
  const AssemblyDocument before = Bench::hatchBox().document();
  EXPECT_EQ(edits::zone(before, "lid hinge", 2, {3, 0, 1}), before);
  EXPECT_EQ(edits::zone(before, "no hinge", 0, {3, 0, 1}), before);
  EXPECT_EQ(edits::zone(before, "lid hinge", 0, {0, 0, 1}), before);
  EXPECT_EQ(edits::zone(before, "lid hinge", 0, {3, 1, 1}), before);
  EXPECT_EQ(edits::zone(before, "lid hinge", 0, {3, std::nullopt, 1}), before);
  EXPECT_EQ(edits::zone(before, "lid hinge", 0, {std::nan(""), 0, 1}), before);
  EXPECT_FALSE(edits::zoneSize(before, "bolt slide", 0));
}

TEST(JointEdits, StepsAreTwentiethsThatAreWrittenShort) {
  EXPECT_EQ(edits::toZoneStep(2.7249), 2.7);
  EXPECT_EQ(edits::toZoneStep(2.7251), 2.75);
  EXPECT_EQ(edits::toZoneStep(-20.31), -20.3);
  EXPECT_EQ(edits::toZoneStep(0.3), 0.3) << "the double that is written so";
}

}  // namespace
}  // namespace swingroom
