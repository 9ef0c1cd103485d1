#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/print/weight/weight_check.h"
#include "tests/core/print/print_fixture.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

constexpr double kG = 9.80665;  // m/s2, standard

/// Everything solid, of 1 g/cm3 unless said otherwise; joints that hold nothing unless said.
struct HoldCase {
  explicit HoldCase(const Mechanism& mechanism) : fixture(mechanism) {
    for (PartPrint& print : fixture.prints) {
      print.process.infill.value = 1;
      print.material.densityGPerCm3.value = 1;
    }
    for (std::size_t j = 0; j < fixture.assembly.joints().size(); ++j) {
      JointFriction friction;
      friction.joint = JointId{j};
      friction.model = FrictionModel::none;
      frictions.push_back(friction);
    }
  }
  void weigh(PartId part, double grams, double volumeMm3) {
    fixture.prints[part.index].material.densityGPerCm3.value = grams / volumeMm3 * 1000;
  }
  void holds(JointId joint, double lowNmm, double highNmm) {
    frictions[joint.index].model = FrictionModel::press;
    frictions[joint.index].torqueLowNmm = lowNmm;
    frictions[joint.index].torqueHighNmm = highNmm;
  }
  const WeightResult& check(unsigned threads = 1) {
    WorkMonitor monitor;
    PrintSubject subject = fixture.subject();
    subject.threads = threads;
    result = checkWeight(subject, frictions, monitor);
    return result;
  }
  JointHold hold(JointId joint, std::size_t mode = 0) {
    check();
    for (const JointHold& hold : result.modes.at(mode).joints) {
      if (hold.joint == joint) return hold;
    }
    ADD_FAILURE() << "the joint was not judged";
    return {};
  }
  PrintFindings findings() {
    check();
    PrintFindings found;
    addWeightFindings(fixture.subject(), result, found);
    return found;
  }

  PrintFixture fixture;
  std::vector<JointFriction> frictions;
  WeightResult result;
};

/// A post that stands by itself, and a limb of 50 g whose middle is 60 mm out, on a hinge at
/// (0, 0, 200) that lifts it for larger values.
struct Limb {
  Limb() {
    post = mechanism.addPart("post", shapes::box({-100, -100, 0}, {-10, 100, 300}));
    limb = mechanism.addPart("limb", shapes::box({0, -5, 195}, {120, 5, 205}));
    hinge = mechanism.addHinge(limb, post, {0, 0, 200}, -Vector3d::UnitY());
    mechanism.joint(hinge).range = {radFromDeg(-80), radFromDeg(80), 0};
  }
  HoldCase made() const {
    HoldCase made(mechanism);
    made.weigh(limb, 50, 12000);
    return made;
  }

  Mechanism mechanism;
  PartId post, limb;
  JointId hinge;
};

// Check values H-1, closed form.
TEST(Hold, TorqueOfALimb) {
  Limb limb;
  limb.mechanism.addStep(limb.hinge, deg(60));
  HoldCase made = limb.made();
  EXPECT_NEAR(made.hold(limb.hinge, 0).load, 29.41995, 1e-6);
  EXPECT_NEAR(made.hold(limb.hinge, 1).load, 14.709975, 1e-6);
  EXPECT_NEAR(made.hold(limb.hinge, 0).hung.massG, 50, 1e-9);
  EXPECT_NEAR((made.hold(limb.hinge, 0).hung.centre_W - Vector3d(60, 0, 200)).norm(), 0, 1e-9);
}

// H-3 with H-2's 26.941176 N mm: it does not hold level; at 60 degrees with margin 1.83.
TEST(Hold, FrictionThatHoldsRaisedButNotLevel) {
  Limb limb;
  limb.mechanism.addStep(limb.hinge, deg(60));
  HoldCase made = limb.made();
  made.holds(limb.hinge, 26.941176, 26.941176);
  const JointHold level = made.hold(limb.hinge, 0), raised = made.hold(limb.hinge, 1);
  EXPECT_EQ(level.kind, HoldKind::droops);
  EXPECT_NEAR(level.needed, 29.41995, 1e-4);
  EXPECT_EQ(raised.kind, HoldKind::friction);
  EXPECT_NEAR(raised.holdsLow / raised.needed, 1.83, 0.005);
  const PrintFindings found = made.findings();
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].word, PrintWord::droops);
  EXPECT_EQ(found[0].grade, PrintGrade::finding);
  EXPECT_EQ(found[0].joint, limb.hinge);
  EXPECT_EQ(found[0].unit, "N mm");
  EXPECT_NEAR(found[0].lower, 29.41995, 1e-4);
  EXPECT_NEAR(found[0].needed.value(), 26.941176, 1e-9);
  EXPECT_NE(found[0].sentence.find("29.4 N mm"), std::string::npos) << found[0].sentence;
}

TEST(Hold, BetweenLowAndHighFrictionItMayDroop) {
  Limb limb;
  HoldCase made = limb.made();
  made.holds(limb.hinge, 20, 40);
  EXPECT_EQ(made.hold(limb.hinge).kind, HoldKind::mayDroop);
  for (const PrintFinding& finding : made.findings()) EXPECT_EQ(finding.grade, PrintGrade::hint);
  made.holds(limb.hinge, 29.5, 40);
  EXPECT_EQ(made.hold(limb.hinge).kind, HoldKind::friction);
  made.holds(limb.hinge, 5, 29.3);
  EXPECT_EQ(made.hold(limb.hinge).kind, HoldKind::droops);
}

// A pin that lies loose rubs by its load: 50 g x 1 mm are 0.49 N mm.
TEST(Hold, ALooseJointIsJudgedByWhatItCarries) {
  Limb limb;
  limb.mechanism.addStep(limb.hinge, deg(79));
  HoldCase made = limb.made();
  made.frictions[limb.hinge.index].armLowMm = 0.5;
  made.frictions[limb.hinge.index].armHighMm = 1;
  EXPECT_NEAR(made.hold(limb.hinge).holdsHigh, 0.05 * kG, 1e-9);
  EXPECT_NEAR(made.hold(limb.hinge).holdsLow, 0.025 * kG, 1e-9);
  EXPECT_EQ(made.hold(limb.hinge).kind, HoldKind::droops);
}

TEST(Hold, NothingIsSaidOfAJointWhoseFitIsNotKnown) {
  Limb limb;
  HoldCase made = limb.made();
  made.frictions[limb.hinge.index].model = FrictionModel::unknown;
  EXPECT_EQ(made.hold(limb.hinge).kind, HoldKind::unknown);
  EXPECT_TRUE(made.findings().empty());
}

// Down by 80 degrees to the end of its range; a limb that hangs freely would take 90.
TEST(Hold, HowFarItDroops) {
  Limb limb;
  HoldCase made = limb.made();
  const auto toRange = made.hold(limb.hinge).way;
  ASSERT_TRUE(toRange);
  EXPECT_NEAR(degFromRad(toRange->by), 80, 1e-6);
  EXPECT_TRUE(toRange->toRange);
  limb.mechanism.joint(limb.hinge).range = {};
  EXPECT_NEAR(degFromRad(limb.made().hold(limb.hinge).way->by), 90, 1e-6);
}

// Closed form: the limb's lower edge, 5 mm under the pivot and 120 mm out, meets a floor h under
// the pivot when 5 cos t + 120 sin t = h.
TEST(Hold, TheFloorEndsADroop) {
  Mechanism low;
  const PartId post = low.addPart("post", shapes::box({-100, -100, 0}, {-10, 100, 300}));
  const PartId limb = low.addPart("limb", shapes::box({0, -5, 35}, {120, 5, 45}));
  const JointId hinge = low.addHinge(limb, post, {0, 0, 40}, -Vector3d::UnitY());
  const auto way = HoldCase(low).hold(hinge).way;
  ASSERT_TRUE(way);
  EXPECT_TRUE(way->meetsFloor);
  EXPECT_NEAR(5 * std::cos(way->by) + 120 * std::sin(way->by), 40, 1e-4);
}

// A block under it at 10 mm: atan of what is free decides, within the sweep's own closeness.
TEST(Hold, PartsInTheWayEndADroopOrHold) {
  for (const double gap : {10.0, 1.0}) {
    Limb limb;
    const PartId block =
        limb.mechanism.addPart("block", shapes::box({50, -20, 0}, {100, 20, 195 - gap}));
    limb.mechanism.addFixed(block, limb.post);
    HoldCase made = limb.made();
    const JointHold hold = made.hold(limb.hinge);
    ASSERT_TRUE(hold.way);
    ASSERT_TRUE(hold.way->meets);
    EXPECT_EQ(hold.way->meets->second, block);
    // The block's far edge is met by the limb's lower face, 5 mm under the pivot.
    const double x = 100, y = 5 + gap;
    const double t = std::asin(5 / std::hypot(x, y));
    EXPECT_NEAR(hold.way->by, std::atan2(y, x) - t, 1e-3);
    EXPECT_EQ(hold.kind, gap < 2 ? HoldKind::stop : HoldKind::droops);
  }
}

TEST(Hold, AStopHoldsOnlyTheWayItStops) {
  Limb limb;
  limb.mechanism.joint(limb.hinge).range = {0, radFromDeg(80), 0};
  EXPECT_EQ(limb.made().hold(limb.hinge).kind, HoldKind::stop);
  limb.mechanism.joint(limb.hinge).range = {radFromDeg(-80), 0, 0};
  EXPECT_EQ(limb.made().hold(limb.hinge).kind, HoldKind::droops);
}

TEST(Hold, AClickHolds) {
  Limb limb;
  limb.mechanism.joint(limb.hinge).clicks = {0, radFromDeg(45)};
  limb.mechanism.addStep(limb.hinge, deg(30));
  HoldCase made = limb.made();
  EXPECT_EQ(made.hold(limb.hinge, 0).kind, HoldKind::click);
  EXPECT_EQ(made.hold(limb.hinge, 1).kind, HoldKind::droops);
}

TEST(Hold, AGripHoldsInItsModeOnly) {
  Limb limb;
  limb.mechanism.addStep(limb.hinge, deg(30));
  Contact grip;
  grip.kind = ContactKind::grip;
  grip.modes = {ModeId{0}};
  limb.mechanism.parts().pairRules.push_back({limb.post, limb.limb, std::nullopt, {grip}, {}});
  HoldCase made = limb.made();
  EXPECT_EQ(made.hold(limb.hinge, 0).kind, HoldKind::grip);
  EXPECT_EQ(made.hold(limb.hinge, 1).kind, HoldKind::droops);
}

TEST(Hold, AnUprightAxisHasNoLoad) {
  Mechanism turning;
  const PartId post = turning.addPart("post", shapes::box({-100, -100, 0}, {-10, 100, 300}));
  const PartId arm = turning.addPart("arm", shapes::box({0, -5, 195}, {120, 5, 205}));
  const JointId hinge = turning.addHinge(arm, post, {0, 0, 200}, kZ);
  EXPECT_EQ(HoldCase(turning).hold(hinge).kind, HoldKind::level);
}

// The ball's torque is the weight times how far out it hangs, whatever the way.
TEST(Hold, BallHoldsByItsFit) {
  Mechanism arm;
  const PartId post = arm.addPart("post", shapes::box({-100, -100, 0}, {-10, 100, 300}));
  const PartId limb = arm.addPart("limb", shapes::box({0, -5, 195}, {120, 5, 205}));
  const JointId ball = arm.addBall(limb, post, {0, -40, 200});
  HoldCase made(arm);
  made.weigh(limb, 50, 12000);
  const double torque = 0.05 * kG * std::hypot(60, 40);
  EXPECT_NEAR(made.hold(ball).load, torque, 1e-6);
  made.holds(ball, 0.99 * torque, 0.99 * torque);
  EXPECT_EQ(made.hold(ball).kind, HoldKind::droops);
  made.holds(ball, 1.01 * torque, 1.01 * torque);
  EXPECT_EQ(made.hold(ball).kind, HoldKind::friction);
}

TEST(Hold, ASlideSinksByItsWeight) {
  Mechanism lift;
  const PartId post = lift.addPart("post", shapes::box({-100, -100, 0}, {-10, 100, 300}));
  const PartId car = lift.addPart("car", shapes::box({0, -10, 100}, {20, 10, 120}));
  const JointId slide = lift.addSlide(car, post, kZ);
  lift.joint(slide).range = {-50, 50, 0};
  HoldCase made(lift);
  const JointHold hold = made.hold(slide);
  EXPECT_EQ(hold.kind, HoldKind::droops);
  EXPECT_NEAR(hold.load, 0.008 * kG, 1e-9);  // N, of 8 g
  EXPECT_NEAR(hold.way->by, 50, 1e-6);
  EXPECT_EQ(made.findings().front().unit, "N");
}

/// A body on two legs that stand `out` mm outside of their hinges.
struct Table {
  explicit Table(double out) {
    body = mechanism.addPart("body", shapes::box({-100, -20, 60}, {100, 20, 80}));
    for (const double side : {-1.0, 1.0}) {
      const double x = side * (80 + out);
      const PartId leg = mechanism.addPart("leg", shapes::box({x - 5, -20, 0}, {x + 5, 20, 59}));
      legs.push_back(leg);
      hinges.push_back(
          mechanism.addHinge(leg, body, {side * 80, 0, 60}, Vector3d(Vector3d::UnitY())));
    }
  }
  /// The body weighs 100 g, the legs nothing to speak of.
  HoldCase made() const {
    HoldCase made(mechanism);
    made.weigh(body, 100, 200.0 * 40 * 20);
    for (const PartId leg : legs) made.weigh(leg, 1e-6, 10.0 * 40 * 59);
    return made;
  }

  Mechanism mechanism;
  PartId body;
  std::vector<PartId> legs;
  std::vector<JointId> hinges;
};

TEST(Hold, LegsUnderTheirHingesNeedNoFriction) {
  HoldCase made = Table(0).made();
  for (const JointId hinge : {JointId{0}, JointId{1}}) {
    const JointHold hold = made.hold(hinge);
    EXPECT_TRUE(hold.shared);
    EXPECT_TRUE(hold.kind == HoldKind::floor || hold.kind == HoldKind::level);
    EXPECT_NEAR(hold.needed, 0, 1e-6);
  }
  EXPECT_TRUE(made.findings().empty());
}

// Closed form: on a smooth floor each leg bears half the body at its sole's inner edge, 15 mm
// outside of the hinge: 0.49 N x 15 mm.
TEST(Hold, SplayedLegsNeedTheirJoints) {
  const double needed = 0.05 * kG * 15;
  HoldCase made = Table(20).made();
  for (const double share : {1.01, 0.99}) {
    made.holds(JointId{0}, share * needed, share * needed);
    made.holds(JointId{1}, share * needed, share * needed);
    for (const JointId hinge : {JointId{0}, JointId{1}}) {
      const JointHold hold = made.hold(hinge);
      // On a rough floor the soles do not slide outwards: then even less holds.
      EXPECT_EQ(hold.kind, share > 1 ? HoldKind::friction : HoldKind::mayDroop);
      EXPECT_NEAR(hold.needed, needed, 1e-3 * needed);
    }
  }
}

// Only the child touches the floor: all the rest hangs on the hinge, 100 g x 20 mm.
TEST(Hold, TheRestHangsOnAJointWhoseChildStands) {
  Mechanism crane;
  const PartId arm = crane.addPart("arm", shapes::box({0, -10, 50}, {40, 10, 60}));
  const PartId foot = crane.addPart("foot", shapes::box({-100, -50, 0}, {100, 50, 40}));
  const JointId hinge = crane.addHinge(foot, arm, {0, 0, 55}, Vector3d(Vector3d::UnitY()));
  HoldCase made(crane);
  made.weigh(arm, 100, 8000);
  made.weigh(foot, 1000, 800000);
  const double torque = 0.1 * kG * 20;
  made.holds(hinge, 1.01 * torque, 1.01 * torque);
  EXPECT_EQ(made.hold(hinge).kind, HoldKind::friction);
  EXPECT_NEAR(made.hold(hinge).needed, torque, 1e-3 * torque);
  made.holds(hinge, 0.99 * torque, 0.99 * torque);
  EXPECT_EQ(made.hold(hinge).kind, HoldKind::droops);
}

// Two links between the same two blocks, gripped at the far end: three hinges and a grip are a
// triangle and hold; with four hinges the linkage moves.
TEST(Hold, AGripHoldsALoopOnlyIfItIsRigid) {
  for (const bool four : {false, true}) {
    Mechanism loop;
    const PartId post = loop.addPart("post", shapes::box({-100, -100, 0}, {-10, 100, 300}));
    const Vector3d y = Vector3d::UnitY();
    const PartId a = loop.addPart("a", shapes::box({0, -5, 195}, {50, 5, 205}));
    const JointId first = loop.addHinge(a, post, {0, 0, 200}, y);
    const PartId b = loop.addPart("b", shapes::box({55, -5, 195}, {100, 5, 205}));
    loop.addHinge(b, a, {52, 0, 220}, y);
    const PartId c = loop.addPart("c", shapes::box({105, -5, 195}, {150, 5, 205}));
    loop.addHinge(c, b, {102, 0, 200}, y);
    PartId last = c;
    if (four) {
      last = loop.addPart("d", shapes::box({155, -5, 195}, {190, 5, 205}));
      loop.addHinge(last, c, {152, 0, 230}, y);
    }
    Contact grip;
    grip.kind = ContactKind::grip;
    grip.modes = {ModeId{0}};
    loop.parts().pairRules.push_back({post, last, std::nullopt, {grip}, {}});
    HoldCase made(loop);
    const auto& holds = made.check().modes.front().joints;
    // One joint that held would hold a linkage that moves one way: one is told.
    EXPECT_EQ(std::count_if(holds.begin(), holds.end(),
                            [](const JointHold& hold) { return hold.kind == HoldKind::droops; }),
              four ? 1 : 0);
    EXPECT_EQ(made.hold(first).load > 0.01, true);
  }
}

TEST(Hold, AFollowerIsHeldByItsLeader) {
  Limb limb;
  const PartId crank = limb.mechanism.addPart("crank", shapes::box({0, 20, 195}, {1, 25, 200}));
  const JointId leader =
      limb.mechanism.addHinge(crank, limb.post, {0, 22, 200}, Vector3d(Vector3d::UnitY()));
  limb.mechanism.joint(limb.hinge).follows = JointFollow{leader, 1, 0};
  HoldCase made = limb.made();
  EXPECT_EQ(made.hold(limb.hinge).kind, HoldKind::droops);
  limb.mechanism.joint(leader).clicks = {0};
  made = limb.made();
  EXPECT_NE(made.hold(limb.hinge).kind, HoldKind::droops);
}

// H-1 on the way: from -60 to 60 degrees the greatest torque is that of the level limb, halfway.
TEST(Hold, TheWorstOnTheWayIsBracketed) {
  Limb limb;
  limb.mechanism.addStep(limb.hinge, deg(-59));
  limb.mechanism.addStep(limb.hinge, deg(60));
  HoldCase made = limb.made();
  made.check();
  ASSERT_EQ(made.result.worst.size(), 1u);
  const WorstLoad& worst = made.result.worst[0];
  EXPECT_LE(worst.lower, 29.41995 + 1e-9);
  EXPECT_GE(worst.upper, 29.41995 - 1e-9);
  EXPECT_LE(worst.upper - worst.lower, 0.011 * 29.42);
  EXPECT_FALSE(worst.freeTogether);
}

// Held by clicks at both ends, by nothing between them: one hint, and no finding.
TEST(Hold, LetGoBetweenClicksIsAHint) {
  Limb limb;
  limb.mechanism.joint(limb.hinge).clicks = {0, radFromDeg(60)};
  limb.mechanism.addStep(limb.hinge, deg(60));
  HoldCase made = limb.made();
  const PrintFindings found = made.findings();
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].grade, PrintGrade::hint);
  EXPECT_FALSE(found[0].mode);
  // No more than level (H-1), no less than an eighth of the way up.
  EXPECT_LT(made.result.worst[0].unheld, 29.41995);
  EXPECT_GE(made.result.worst[0].unheld, 29.41995 * std::cos(radFromDeg(7.5)) - 1e-6);
  made.holds(limb.hinge, 30, 30);
  EXPECT_TRUE(made.findings().empty());
}

TEST(Hold, OneThreadAndFourGiveTheSame) {
  Limb limb;
  limb.mechanism.addStep(limb.hinge, deg(60));
  HoldCase made = limb.made();
  for (PartPrint& print : made.fixture.prints) print.process.infill.value = 0.15;
  const WeightResult one = made.check(1);
  EXPECT_EQ(one, made.check(4));
}

}  // namespace
}  // namespace swingroom
