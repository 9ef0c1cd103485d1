#include "app/session/rig/joint_hand.h"

#include <gtest/gtest.h>

#include "app/models/travel_words.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/support/wait.h"

namespace swingroom {
namespace {

/// STL coordinates are single precision; a touch is told within 1e-5 mm.
constexpr double kHandMm = 3e-5;

/// The press: sled and block are 4 apart at 0 (tests/app/support/assemblies.h).
class JointHandTest : public ::testing::Test {
 protected:
  void SetUp() override { stand_.setScene(scene_); }
  DriveRange sled() const { return rangeOf(*scene_, {joint(*scene_, "sled way")}); }
  double sledAt() const { return stand_.standing().values[joint(*scene_, "sled way").index].x(); }
  void choose(const char* name) { choice_.choosePart(part(*scene_, name)); }
  bool known() {
    return waitUntil([&] { return spans_.of(sled().drive) != nullptr; });
  }

  Bench bench_ = Bench::press();
  ScenePtr scene_ = bench_.scene();
  Stand stand_;
  Choice choice_;
  FreeSpans spans_{stand_, choice_};
  JointHand hand_{stand_, spans_};
};

TEST_F(JointHandTest, HowFarTheChosenPartGoesIsFoundInTheBackground) {
  EXPECT_EQ(spans_.of(sled().drive), nullptr);
  choose("sled");
  ASSERT_TRUE(known());
  const FreeTravel& travel = *spans_.of(sled().drive);
  EXPECT_NEAR(travel.up.freeTo, 4, kHandMm);
  ASSERT_TRUE(travel.up.stop);
  EXPECT_EQ(PartPair(travel.up.stop->a, travel.up.stop->b),
            PartPair(std::minmax(part(*scene_, "block"), part(*scene_, "sled"))));
  // While it moves within what is free nothing is asked anew; what is free does not change.
  stand_.moveJoint(sled().drive.joint, {3, 0, 0});
  EXPECT_EQ(spans_.of(sled().drive), &travel);
  stand_.moveJoint(sled().drive.joint, {4.5, 0, 0});
  EXPECT_EQ(spans_.of(sled().drive), nullptr)
      << "it stands in the block: nothing is known of that yet";
  ASSERT_TRUE(known());
  const FreeTravel& within = *spans_.of(sled().drive);
  EXPECT_EQ(within.meeting.size(), 1u);
  EXPECT_FALSE(isFree(within)) << "no span is shown as free while parts meet";
  EXPECT_TRUE(travelWords(scene_->assembly(), within, false)
                  .line.startsWith(QStringLiteral("block and sled meet now")));
}

TEST_F(JointHandTest, StopsWhereItTouchesAndComesBack) {
  choose("sled");
  ASSERT_TRUE(known());
  hand_.take(sled());
  hand_.moveTo(2.5);
  EXPECT_EQ(sledAt(), 2.5);
  EXPECT_FALSE(hand_.stoppedBy());
  hand_.moveTo(4.9);
  EXPECT_NEAR(sledAt(), 4, kHandMm);
  EXPECT_LT(sledAt(), 4);
  ASSERT_TRUE(hand_.stoppedBy());
  hand_.moveTo(1);
  EXPECT_EQ(sledAt(), 1);
  EXPECT_FALSE(hand_.stoppedBy());
  hand_.moveTo(4.9, true);
  EXPECT_EQ(sledAt(), 4.9) << "past it where the hand insists";
  hand_.moveTo(4.9);
  EXPECT_NEAR(sledAt(), 4, kHandMm);
  hand_.letGo();
  EXPECT_FALSE(hand_.isHolding());
  EXPECT_NEAR(sledAt(), 4, kHandMm);
}

TEST_F(JointHandTest, StoppedAgainAndAgainItNeverGetsIn) {
  choose("sled");
  for (int round = 0; round < 5; ++round) {
    ASSERT_TRUE(known());
    EXPECT_TRUE(spans_.of(sled().drive)->meeting.empty()) << round;
    hand_.take(sled());
    hand_.moveTo(5);
    EXPECT_LT(sledAt(), 4);
    hand_.letGo();
  }
  ASSERT_TRUE(known());
  hand_.take(sled());
  hand_.moveTo(-5);
  EXPECT_EQ(sledAt(), std::max(-5.0, sled().least));
}

TEST_F(JointHandTest, WaitsUntilItIsKnownHowFarItGoes) {
  choose("sled");
  hand_.take(sled());  // At once: nothing is known.
  hand_.moveTo(5);
  EXPECT_EQ(sledAt(), 0);
  hand_.letGo();
  ASSERT_TRUE(waitUntil([&] { return !hand_.isHolding(); }));
  EXPECT_NEAR(sledAt(), 4, kHandMm);
}

TEST_F(JointHandTest, PutsBackWhatStoodOnTheWayToTheWay) {
  stand_.moveTo(0.4);
  const Configuration before = stand_.standing();
  choose("sled");
  ASSERT_TRUE(known());
  hand_.take(sled());
  hand_.moveTo(0.5);
  EXPECT_TRUE(stand_.isByHand());
  hand_.putBack();
  EXPECT_FALSE(stand_.isByHand());
  EXPECT_EQ(stand_.standing(), before);
  EXPECT_FALSE(hand_.isHolding());
}

TEST_F(JointHandTest, WithoutStoppingItGoesWhereItIsMoved) {
  hand_.setStops(false);
  hand_.take(sled());
  hand_.moveTo(4.5);  // Nobody need know how far it is free.
  EXPECT_EQ(sledAt(), 4.5);
  hand_.moveTo(1e6);
  EXPECT_EQ(sledAt(), sled().greatest);
}

TEST_F(JointHandTest, AnotherSceneTakesItOutOfTheHand) {
  choose("sled");
  ASSERT_TRUE(known());
  hand_.take(sled());
  stand_.setScene(bench_.scene());
  EXPECT_FALSE(hand_.isHolding());
  hand_.moveTo(3);
  EXPECT_EQ(sledAt(), 0);
}

TEST_F(JointHandTest, NothingIsAskedForAPairOrForNoPart) {
  choice_.choosePair(part(*scene_, "sled"), part(*scene_, "block"));
  letTimePass();
  EXPECT_EQ(spans_.of(sled().drive), nullptr);
  hand_.take(sled());
  hand_.moveTo(5);
  EXPECT_TRUE(waitUntil([&] { return sledAt() > 0; }))
      << "a handle that is held is asked for all the same";
  EXPECT_NEAR(sledAt(), 4, kHandMm);
}

}  // namespace
}  // namespace swingroom
