// Joint zones, fits and intended contacts: product rules, with closed-form gaps and depths.
#include <gtest/gtest.h>

#include <cmath>

#include "core/mesh/split.h"
#include "tests/support/mechanism.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

using shapes::box;

constexpr int kSides = 64;

/// A pin of radius 2 in an eye of bore radius `bore`, turning 90 degrees about z. Corners of both on their
/// circles, so the least gap is between the bore's flat middles and the pin's corners.
Mechanism pinInEye(double bore) {
  Mechanism mechanism;
  const PartId eye = mechanism.addPart("eye", shapes::tube(6, bore, -5, 5, kSides));
  const PartId pin = mechanism.addPart("pin", shapes::cylinder(2, -5, 5, kSides));
  const JointId hinge = mechanism.addHinge(pin, eye, Vector3d::Zero(), Vector3d::UnitZ());
  mechanism.addStep(hinge, deg(90));
  return mechanism;
}

TEST(Zones, PinCloserThanRequiredIsTightWithoutAZoneAndClearWithOne) {
  Mechanism mechanism = pinInEye(2.2);
  EXPECT_EQ(mechanism.checkFirstPair().verdict, Verdict::tight);
  mechanism.joint(JointId{0}).zones.push_back({2.7, -6, 6});
  const PairResult pair = mechanism.checkFirstPair();
  EXPECT_EQ(pair.verdict, Verdict::clear);
  ASSERT_TRUE(pair.joint.has_value());
  EXPECT_EQ(pair.joint->verdict, Verdict::clear);
  // Corner of the pin against the middle of a flat of the bore, somewhere in the turn: 2.2 cos(pi/64) - 2.
  const double least = 2.2 - shapes::sagitta(2.2, kSides) - 2;
  EXPECT_LE(pair.joint->gap.lowerMm, least + 1e-6);
  EXPECT_GE(*pair.joint->gap.upperMm, least - 1e-6);
  EXPECT_LE(*pair.joint->gap.upperMm - pair.joint->gap.lowerMm, 0.01);
}

TEST(Zones, ExcusedAreaIsTheSurfaceOfBothPartsInsideTheZone) {
  Mechanism mechanism = pinInEye(2.2);
  mechanism.joint(JointId{0}).zones.push_back({2.7, -1, 1});
  const PairResult pair = mechanism.checkFirstPair();
  // Two prisms of 64 sides, 2 mm of length each: perimeter 2 n r sin(pi/n).
  const double perimeter = 2 * kSides * (2.0 + 2.2) * std::sin(kPi / kSides);
  EXPECT_NEAR(pair.joint->excusedAreaMm2, 2 * perimeter, 1e-9 * perimeter);
  EXPECT_EQ(pair.verdict, Verdict::tight) << "the zone covers only 2 of the 10 mm";
}

TEST(Zones, OverlapInsideAZoneWithoutAFitIsAClash) {
  Mechanism mechanism = pinInEye(1.9);
  mechanism.joint(JointId{0}).zones.push_back({2.7, -6, 6});
  const PairResult pair = mechanism.checkFirstPair();
  EXPECT_EQ(pair.verdict, Verdict::clash);
  EXPECT_EQ(pair.joint->verdict, Verdict::clash);
  // Pin's corner at 2 inside the ring that starts at the bore's flats: 2 - 1.9 cos(pi/64).
  double deepest = 0;
  for (const Stretch& stretch : pair.stretches) deepest = std::max(deepest, stretch.depthMm.value_or(0));
  EXPECT_NEAR(deepest, 2 - 1.9 * std::cos(kPi / kSides), 0.02);
}

TEST(Zones, InterferenceFitExcusesItsOverlapAndIsLooseWhereNothingTouches) {
  Mechanism mechanism = pinInEye(1.9);
  mechanism.joint(JointId{0}).zones.push_back({2.7, -6, 6});
  mechanism.joint(JointId{0}).fitMm = -0.25;
  EXPECT_EQ(mechanism.checkFirstPair().verdict, Verdict::clear);
  mechanism = pinInEye(2.2);
  mechanism.joint(JointId{0}).zones.push_back({2.7, -6, 6});
  mechanism.joint(JointId{0}).fitMm = -0.25;
  EXPECT_EQ(mechanism.checkFirstPair().verdict, Verdict::loose);
}

// A peg pressed 0.05 into a plate inside the zone; outside it the peg's side is 2 from where the zone ends on the
// plate's face, at radius 3: nearest points (10, 3 cos, 3 sin) and the peg's cut at x = 12, corner at radius sqrt(2).
TEST(Zones, OverlapThatAFitExcusesIsNoContainmentInAMode) {
  Mechanism mechanism;
  const PartId plate = mechanism.addPart("plate", box({0, -5, -5}, {10, 5, 5}));
  const PartId peg = mechanism.addPart("peg", box({9.95, -1, -1}, {30, 1, 1}));
  const JointId hinge = mechanism.addHinge(peg, plate, Vector3d::Zero(), Vector3d::UnitX());
  mechanism.joint(hinge).zones = {{3, 8, 12}};
  mechanism.joint(hinge).fitMm = -0.2;
  mechanism.parts().requiredGapMm = 2;
  mechanism.addStep(hinge, deg(90));
  const PairResult pair = mechanism.checkFirstPair();
  EXPECT_EQ(pair.verdict, Verdict::clear);
  for (const ModeGap& mode : pair.modes) {
    // Between sqrt(2^2 + (3 - sqrt 2)^2) with the true circle and what the 48-gon leaves of it.
    EXPECT_NEAR(*mode.upperMm, std::hypot(2.0, 3 - std::sqrt(2.0)), 0.01);
    EXPECT_GT(mode.lowerMm, 2.0);
  }
}

TEST(Zones, ClearanceFitIsHalfOfItASide) {
  Mechanism mechanism = pinInEye(2.2);
  mechanism.joint(JointId{0}).zones.push_back({2.7, -6, 6});
  mechanism.joint(JointId{0}).fitMm = 0.38;  // 0.19 a side wanted, 0.197 there.
  EXPECT_EQ(mechanism.checkFirstPair().joint->verdict, Verdict::clear);
  mechanism.joint(JointId{0}).fitMm = 0.6;
  EXPECT_EQ(mechanism.checkFirstPair().joint->verdict, Verdict::tight);
}

TEST(Zones, SplitKeepsTheAreaAndPutsEachPieceOnItsSide) {
  const TriangleMesh plate = box({-10, -10, -1}, {10, 10, 1});
  const SplitMesh split = splitByCylinder(plate, Vector3d::Zero(), Vector3d::UnitZ(), 4, -5, 5);
  const double disc = 0.5 * 48 * 16 * std::sin(2 * kPi / 48);  // Regular 48-gon on the circle.
  EXPECT_NEAR(areaOf(split.inside), 2 * disc, 1e-9);
  EXPECT_NEAR(areaOf(split.inside) + areaOf(split.outside), areaOf(plate), 1e-9);
  const SplitMesh ball = splitByBall(plate, {0, 0, 1}, 1.5);
  EXPECT_NEAR(areaOf(ball.inside), 0.5 * 48 * 2.25 * std::sin(2 * kPi / 48), 1e-9) << "the lower face is 2 away";
}

/// A foot that is swung down 10 mm onto a floor and then stands on it (touching) in mode "end".
Mechanism footOntoFloor(double overlapMm) {
  Mechanism mechanism;
  const PartId floor = mechanism.addPart("floor", box({-20, -20, -5}, {20, 20, 0}));
  const PartId foot = mechanism.addPart("foot", box({-3, -3, 10}, {3, 3, 14}));
  mechanism.addStep(mechanism.addSlide(foot, floor, -Vector3d::UnitZ()), {10 + overlapMm, 0, 0});
  return mechanism;
}

Contact contactOf(ContactKind kind) {
  Contact contact;
  contact.kind = kind;
  contact.modes = {ModeId{1}};
  return contact;
}

TEST(Contacts, TouchingWithoutAContactIsAClashOfNoDepth) {
  const PairResult pair = footOntoFloor(0).checkFirstPair();
  EXPECT_EQ(pair.verdict, Verdict::clash);
  EXPECT_NEAR(*pair.stretches.back().depthMm, 0, 1e-6);
}

TEST(Contacts, RestInAModeExcusesTheApproachAndTheTouch) {
  Mechanism mechanism = footOntoFloor(0);
  mechanism.parts().pairRules.push_back({PartId{0}, PartId{1}, {}, {contactOf(ContactKind::rest)}, {}});
  EXPECT_EQ(mechanism.checkFirstPair().verdict, Verdict::clear);
}

TEST(Contacts, RestDoesNotExcuseAnOverlap) {
  Mechanism mechanism = footOntoFloor(0.2);
  mechanism.parts().pairRules.push_back({PartId{0}, PartId{1}, {}, {contactOf(ContactKind::rest)}, {}});
  EXPECT_EQ(mechanism.checkFirstPair().verdict, Verdict::clash);
}

TEST(Contacts, RestOnlyCoversItsOwnMode) {
  Mechanism mechanism = footOntoFloor(0);
  Contact contact = contactOf(ContactKind::rest);
  contact.modes = {ModeId{0}};
  mechanism.parts().pairRules.push_back({PartId{0}, PartId{1}, {}, {contact}, {}});
  EXPECT_EQ(mechanism.checkFirstPair().verdict, Verdict::clash);
}

TEST(Contacts, RestWithAPlaceExcusesNothingElsewhere) {
  Mechanism mechanism = footOntoFloor(0);
  Contact contact = contactOf(ContactKind::rest);
  contact.place = Contact::Place{{0, 0, 0}, 6};
  mechanism.parts().pairRules.push_back({PartId{0}, PartId{1}, {}, {contact}, {}});
  EXPECT_EQ(mechanism.checkFirstPair().verdict, Verdict::clear);
  mechanism.parts().pairRules[0].contacts[0].place = Contact::Place{{3, 3, 0}, 1};
  EXPECT_EQ(mechanism.checkFirstPair().verdict, Verdict::clash);
}

/// A pin 0.1 mm too thick for its clip, which a third part leaves before the pin is pulled out 20 mm.
Mechanism clippedPin(bool pulledOut) {
  Mechanism mechanism;
  const PartId clip = mechanism.addPart("clip", shapes::box({0, 0, 0}, {10, 10, 10}));
  const PartId pin = mechanism.addPart("pin", shapes::box({9.9, 2, 2}, {20, 8, 8}));
  const PartId lid = mechanism.addPart("lid", shapes::box({0, 0, 12}, {10, 10, 14}));
  const JointId lifts = mechanism.addSlide(lid, clip, Vector3d::UnitZ());
  const JointId pulls = mechanism.addSlide(pin, clip, Vector3d::UnitX());
  mechanism.addStep(lifts, {10, 0, 0});
  mechanism.addStep(pulls, {pulledOut ? 20.0 : 0.0, 0, 0});
  mechanism.addStep(lifts, {20, 0, 0});
  Contact grip = contactOf(ContactKind::grip);
  grip.modes = {ModeId{0}};
  grip.overlapMm = Span{0.05, 0.15};
  mechanism.parts().pairRules.push_back({PartId{0}, PartId{1}, {}, {grip}, {}});
  return mechanism;
}

// A mode's contact goes on for as long as the pair stands as in that mode, and until it has come off.
TEST(Contacts, GripOfTheStartHoldsUntilThePairHasMovedApart) {
  EXPECT_EQ(clippedPin(true).checkFirstPair().verdict, Verdict::clear);
}

TEST(Contacts, GripOfTheStartHoldsThroughAllStepsThatLeaveThePairAsItIs) {
  EXPECT_EQ(clippedPin(false).checkFirstPair().verdict, Verdict::clear);
}

TEST(Contacts, GripOfTheStartDoesNotExcuseComingBackInAnotherStep) {
  Mechanism mechanism = clippedPin(true);
  mechanism.addStep(JointId{1}, {0, 0, 0});
  const PairResult pair = mechanism.checkFirstPair();
  EXPECT_EQ(pair.verdict, Verdict::clash);
  ASSERT_FALSE(pair.stretches.empty());
  EXPECT_GT(pair.stretches.front().from, 0.75) << "the last of four steps";
}

TEST(Contacts, GripThatDoesNotTouchIsLoose) {
  Mechanism mechanism = footOntoFloor(-0.5);
  Contact contact = contactOf(ContactKind::grip);
  mechanism.parts().pairRules.push_back({PartId{0}, PartId{1}, {}, {contact}, {}});
  const PairResult pair = mechanism.checkFirstPair();
  EXPECT_EQ(pair.verdict, Verdict::loose);
  ASSERT_EQ(pair.looseContacts.size(), 1u);
  mechanism.parts().pairRules[0].contacts[0].gapMm = Span{0, 0.6};
  EXPECT_EQ(mechanism.checkFirstPair().verdict, Verdict::clear);
}

TEST(Contacts, SnapMayOverlapInItsStepOnly) {
  // A hook slides past a 0.4 mm bump.
  Mechanism mechanism;
  const PartId rail = mechanism.addPart("rail", box({10, -5, -5}, {14, 5, 0.4}));
  const PartId hook = mechanism.addPart("hook", box({0, -3, 0}, {4, 3, 5}));
  mechanism.addStep(mechanism.addSlide(hook, rail, Vector3d::UnitX()), {30, 0, 0});
  EXPECT_EQ(mechanism.checkFirstPair().verdict, Verdict::clash);
  Contact contact;
  contact.kind = ContactKind::snap;
  contact.steps = {"step 1"};
  contact.overlapMm = Span{0, 0.5};
  mechanism.parts().pairRules.push_back({rail, hook, {}, {contact}, {}});
  EXPECT_EQ(mechanism.checkFirstPair().verdict, Verdict::clear);
  mechanism.parts().pairRules[0].contacts[0].overlapMm = Span{0, 0.2};
  EXPECT_EQ(mechanism.checkFirstPair().verdict, Verdict::clash);
}

// A blade passes a ridge 0.5 high, whose foot it meets where the overlap is well below the 0.3 that may be: the search
// for the deepest must climb from there. Overlap at the top: 0.5, less the ridge's slope and the blade's width.
TEST(Contacts, SnapOverANarrowRidgeThatIsTooHighIsAClash) {
  Mechanism mechanism;
  const PartId rail = mechanism.addPart(
      "rail", shapes::prism({{0, -5}, {40, -5}, {40, 0.02}, {23.25, 0.02}, {21.25, 0.5}, {19.25, 0.02}, {0, 0.02}}, -3, 3));
  const PartId blade = mechanism.addPart("blade", shapes::box({-2.1, 0, -1}, {-2, 5, 1}));
  mechanism.addStep(mechanism.addSlide(blade, rail, Vector3d::UnitX()), {44, 0, 0});
  Contact snap;
  snap.kind = ContactKind::snap;
  snap.steps = {mechanism.sequence().steps.front().name};
  snap.overlapMm = Span{0, 0.3};
  mechanism.parts().pairRules.push_back({rail, blade, {}, {snap}, {}});
  EXPECT_EQ(mechanism.checkFirstPair().verdict, Verdict::clash);
  mechanism.parts().pairRules[0].contacts[0].overlapMm = Span{0, 0.55};
  EXPECT_EQ(mechanism.checkFirstPair().verdict, Verdict::clear);
}

TEST(Contacts, PartsOfAFixedJointMayTouchButNotOverlap) {
  Mechanism touching;
  const PartId base = touching.addPart("base", box({0, 0, 0}, {10, 10, 10}));
  const PartId cap = touching.addPart("cap", box({0, 0, 10}, {10, 10, 12}));
  touching.addFixed(cap, base);
  EXPECT_EQ(touching.checkFirstPair().verdict, Verdict::clear);
  Mechanism overlapping;
  const PartId lower = overlapping.addPart("base", box({0, 0, 0}, {10, 10, 10}));
  const PartId upper = overlapping.addPart("cap", box({0, 0, 9.8}, {10, 10, 12}));
  overlapping.addFixed(upper, lower);
  EXPECT_EQ(overlapping.checkFirstPair().verdict, Verdict::clash);
}

}  // namespace
}  // namespace swingroom
