// Suggestions taken and left on the hatch box without its joints: the lid's pins, 4 mm, turn about
// the line through (0, 0, 24) along x; its bolt slides along y in the lid (README of the sample).
#include "app/session/rig/rig_editor.h"

#include <gtest/gtest.h>

#include "app/models/rig_rows.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/support/wait.h"

namespace swingroom {
namespace {

class RigEditorTest : public ::testing::Test {
 protected:
  RigEditorTest() : bench_(Bench::hatchBox()), session_(testReader()) {
    AssemblyDocument bare = bench_.document();
    bare.joints.clear(), bare.modes.clear(), bare.sequences.clear(), bare.pairs.clear();
    session_.start(bare, bench_.folder() / "bare.swing.json");
    finder_.setWanted(true);
    EXPECT_TRUE(waitUntil([this] { return isKnown(); }));
  }
  bool isKnown() const { return finder_.isCurrent() && !finder_.isLooking(); }
  std::optional<RigItem> itemOf(const std::string& child) const {
    for (const RigItem& item : rig_.items()) {
      if (item.kind == RigKind::joint && rig_.jointOf(item).child == child) return item;
    }
    return std::nullopt;
  }
  const std::vector<DocumentJoint>& joints() const { return rig_.document().joints; }

  Bench bench_;
  Session session_;
  RigFinder finder_{session_};
  RigEditor rig_{session_, finder_};
};

TEST_F(RigEditorTest, ThePinsOfTheLidAreSuggestedAsItsHingeAndAcceptedAsOneEdit) {
  const auto lid = itemOf("lid");
  ASSERT_TRUE(lid.has_value());
  const DocumentJoint suggested = rig_.jointOf(*lid);
  EXPECT_EQ(suggested.type, JointType::hinge);
  EXPECT_EQ(suggested.parent, "box");
  EXPECT_NEAR((*suggested.through)[1], 0, 1e-4);
  EXPECT_NEAR((*suggested.through)[2], 24, 1e-4);
  EXPECT_NEAR(std::abs((*suggested.along)[0]), 1, 1e-6);
  EXPECT_TRUE(joints().empty()) << "nothing is taken by itself";
  rig_.accept({*lid});
  ASSERT_EQ(joints().size(), 1u);
  EXPECT_EQ(joints()[0], suggested);
  EXPECT_FALSE(itemOf("lid").has_value()) << "before the next scene is there";
  ASSERT_TRUE(waitUntil([this] { return isKnown(); }));
  EXPECT_FALSE(itemOf("lid").has_value());
  EXPECT_TRUE(session_.problems().empty());
  session_.document().undoStack().undo();
  EXPECT_TRUE(joints().empty());
  ASSERT_TRUE(waitUntil([this] { return isKnown(); }));
  EXPECT_TRUE(itemOf("lid").has_value());
}

TEST_F(RigEditorTest, WhatIsLeftOutStaysOutUntilItIsTakenBack) {
  const std::size_t all = rig_.items().size();
  const auto lid = itemOf("lid");
  ASSERT_TRUE(lid.has_value());
  rig_.leaveOut(*lid);
  EXPECT_EQ(rig_.items().size(), all - 1);
  EXPECT_EQ(rig_.leftOut(), 1u);
  AssemblyDocument other = rig_.document();
  other.requiredGap = 0.25;
  session_.document().edit(QStringLiteral("gap"), other);
  ASSERT_TRUE(waitUntil([this] { return isKnown(); }));
  EXPECT_FALSE(itemOf("lid").has_value()) << "in the next scene too";
  rig_.takeBackLeftOut();
  EXPECT_TRUE(itemOf("lid").has_value());
}

TEST_F(RigEditorTest, AnotherWayToHangIsChosenAndThatIsWhatIsTaken) {
  auto lid = itemOf("lid");
  ASSERT_TRUE(lid.has_value());
  const auto& others = finder_.rig()->joints.at(lid->index).others;
  ASSERT_FALSE(others.empty());
  rig_.choose(*lid, 1);
  lid = itemOf("lid");
  ASSERT_TRUE(lid.has_value());
  EXPECT_EQ(lid->choice, 1u);
  EXPECT_EQ(rig_.jointOf(*lid).type, others[0].joint.type);
  rig_.accept({*lid});
  ASSERT_EQ(joints().size(), 1u);
  EXPECT_EQ(joints()[0].type, others[0].joint.type);
}

TEST_F(RigEditorTest, EverythingIsTakenWithOneWord) {
  ASSERT_FALSE(rig_.items().empty());
  rig_.acceptEverything();
  ASSERT_TRUE(waitUntil([this] { return !rig_.isAccepting() && isKnown(); }));
  EXPECT_FALSE(joints().empty());
  for (const RigItem& item : rig_.items()) EXPECT_NE(item.kind, RigKind::joint);
  const auto groups = rigGroups(rig_);
  ASSERT_FALSE(groups.empty());
  EXPECT_TRUE(groups.back().isWritten);
  EXPECT_EQ(groups.back().rows.size(), joints().size());
}

TEST_F(RigEditorTest, AJointIsChangedInAllOfItByOneEdit) {
  DocumentJoint joint;
  joint.type = JointType::hinge;
  joint.parent = "box", joint.child = "lid";
  joint.through = ThreeNumbers{0, 0, 24}, joint.along = ThreeNumbers{1, 0, 0};
  ASSERT_FALSE(rig_.addJoint(joint).has_value());
  const std::string name = joints().at(0).name;
  DocumentJoint wanted = joints()[0];
  wanted.name = "lid hinge";
  wanted.along = ThreeNumbers{-1, 0, 0};
  wanted.range = DocumentRange(TwoNumbers{0, 110});
  wanted.fit = 0.4;
  ASSERT_FALSE(rig_.changeJoint(name, wanted).has_value());
  EXPECT_EQ(joints().at(0), wanted);
  session_.document().undoStack().undo();
  EXPECT_EQ(joints().at(0).name, name);
  wanted.parent = "lid";
  EXPECT_TRUE(rig_.changeJoint(name, wanted).has_value()) << "a part cannot hang on itself";
  EXPECT_EQ(joints().at(0).parent, "box");
}

}  // namespace
}  // namespace swingroom
