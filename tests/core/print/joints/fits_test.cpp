#include "core/print/joints/fits.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "core/print/joints/joint_friction.h"
#include "core/print/joints/joint_play.h"
#include "tests/core/print/joints/lathe.h"
#include "tests/core/print/print_fixture.h"

namespace swingroom {
namespace {

constexpr int kFitSides = 96;

/// A pin of 5 mm through a hole in a tube, both 96-sided, turned and put anywhere.
struct PinInTube {
  double pin = 5, hole = 5.4, outer = 12, low = 0, high = 10, offMm = 0;
  JointType type = JointType::hinge;
  std::optional<double> fitMm;
  bool turned = true;

  Mechanism mechanism() const {
    std::mt19937_64 random(9);
    const Pose X = turned ? shapes::randomPose(random, 40) : Pose::Identity();
    Mechanism m;
    const PartId p = m.addPart("pin", shapes::moved(shapes::cylinder(pin / 2, -5, 15, kFitSides),
                                                    X * translation(Vector3d(offMm, 0, 0))));
    const PartId t = m.addPart(
        "tube", shapes::moved(shapes::tube(outer / 2, hole / 2, low, high, kFitSides), X));
    const JointId j = type == JointType::hinge ? m.addHinge(t, p, X * kOrigin, X.linear() * kZ)
                                               : m.addFixed(p, t);
    m.joint(j).fitMm = fitMm;
    return m;
  }
};

struct FoundFits {
  explicit FoundFits(const PrintFixture& fixture) : subject(fixture.subject()) {
    WorkMonitor monitor;
    result = checkFits(subject, monitor);
    addFitFindings(subject, result, findings);
  }
  const FitFigure& fit(std::size_t joint = 0) const { return result.fits.at(joint); }
  std::size_t count(PrintWord word, PrintGrade grade = PrintGrade::finding) const {
    return static_cast<std::size_t>(
        std::count_if(findings.begin(), findings.end(),
                      [&](const PrintFinding& f) { return f.word == word && f.grade == grade; }));
  }

  PrintSubject subject;
  FitsResult result;
  PrintFindings findings;
};

// Hole 5.4 and pin 5, 96 sides: the hole's facets stand in by their sagitta (closed form).
TEST(Fits, HingeTurnedAnywhereHasItsClearanceFacetsCounted) {
  const FoundFits found{PrintFixture(PinInTube{}.mechanism())};
  const FitFigure& fit = found.fit();
  ASSERT_EQ(fit.shape, FitShape::pin);
  EXPECT_EQ(fit.duty, FitDuty::turns);
  EXPECT_EQ(fit.pinPart, PartId{0});
  EXPECT_EQ(fit.holePart, PartId{1});
  EXPECT_NEAR(fit.pinMm, 5, 1e-6);
  EXPECT_NEAR(fit.holeMm, 5.4, 1e-6);
  EXPECT_NEAR(fit.clearanceMm.mostMm, 0.4, 1e-6);
  EXPECT_NEAR(fit.clearanceMm.leastMm, 0.4 - 2 * shapes::sagitta(2.7, kFitSides), 1e-6);
  EXPECT_NEAR(fit.lengthMm, 10, 1e-6);
  EXPECT_NEAR(fit.spanMm, 10, 1e-6);
  EXPECT_NEAR(fit.offAxisMm, 0, 1e-6);
  // The wall is 3.3 mm thick; facets take at most the sagitta off it.
  EXPECT_NEAR(fit.hubMm, 12, 0.01);
  // As printed: 2 x 0.05 of the pin and 0.15 of the hole; 0.1 of scatter each (default process).
  EXPECT_NEAR(fit.printedMm.mostMm, 0.4 - 0.1 - 0.15, 1e-6);
  EXPECT_NEAR(fit.scatterMm, 0.2, 1e-12);
  EXPECT_EQ(fit.modelledClass, FitClass::clearance);
  EXPECT_EQ(fit.printedClass, FitClass::transition);  // 0.15, plus or minus 0.2.
  EXPECT_EQ(fit.isoReference->fit, "H11/c11");
  EXPECT_TRUE(found.findings.empty());
}

// D-C2: shaft and bore with offset axes.
TEST(Fits, OffsetOfTheAxesIsTold) {
  PinInTube made;
  made.offMm = 0.06;
  const FoundFits found{PrintFixture(made.mechanism())};
  EXPECT_NEAR(found.fit().offAxisMm, 0.06, 1e-6);
}

// D-C4: D 5.4, d 5, L 10: 2.26818 degrees. The mesh's clearance is less by two sagittas of 0.00145,
// which takes 0.0165 off the angle.
TEST(Fits, PlayIsHalfTheClearanceAndTheJamAngle) {
  const PrintFixture fixture(PinInTube{}.mechanism());
  const FoundFits found{fixture};
  const JointPlay play = jointPlays(found.subject, found.result).at(0);
  EXPECT_EQ(play.source, PlaySource::fit);
  EXPECT_NEAR(play.asModelled.radialMm, 0.2, shapes::sagitta(2.7, kFitSides) + 1e-6);
  EXPECT_NEAR(degFromRad(play.asModelled.tiltRad), 2.26818, 0.0170);
  EXPECT_LT(play.asModelled.tiltRad, radFromDeg(2.26818));
  EXPECT_NEAR(play.asPrinted.radialMm, play.asModelled.radialMm - 0.125, 1e-9);
  EXPECT_NEAR(play.loosest.radialMm, play.asModelled.radialMm - 0.025, 1e-9);
  EXPECT_FALSE(play.asModelled.axialMm);  // Nothing stops it along the axis.
}

TEST(Fits, PlayInTheFileWins) {
  const PrintFixture fixture(PinInTube{}.mechanism());
  FoundFits found{fixture};
  found.subject.play = {radFromDeg(3)};
  const JointPlay play = jointPlays(found.subject, found.result).at(0);
  EXPECT_EQ(play.source, PlaySource::written);
  EXPECT_EQ(play.asPrinted.tiltRad, radFromDeg(3));
  EXPECT_EQ(play.asPrinted.radialMm, 0);
  EXPECT_EQ(play.loosest, play.asModelled);
}

// Two holes of 3 mm, 6 mm apart, on one pin: it jams over the whole span.
TEST(Fits, TwoCheeksHoldOverTheirSpan) {
  Mechanism m;
  const PartId pin = m.addPart("pin", shapes::cylinder(2, -1, 13, kFitSides));
  const PartId fork = m.addPart("fork", shapes::joined({shapes::tube(5, 2.2, 0, 3, kFitSides),
                                                        shapes::tube(5, 2.15, 9, 12, kFitSides)}));
  m.addHinge(fork, pin, kOrigin, kZ);
  const FoundFits found{PrintFixture(m)};
  const FitFigure& fit = found.fit();
  ASSERT_EQ(fit.along.size(), 2u);
  EXPECT_NEAR(fit.lengthMm, 6, 1e-6);
  EXPECT_NEAR(fit.spanMm, 12, 1e-6);
  EXPECT_NEAR(fit.along[0].clearanceMm.mostMm, 0.4, 1e-6);
  EXPECT_NEAR(fit.along[1].clearanceMm.mostMm, 0.3, 1e-6);
  EXPECT_NEAR(fit.holeMm, 4.3, 1e-6);  // The tighter one.
  EXPECT_NEAR(fit.clearanceMm.mostMm, 0.4, 1e-6);
  const JointPlay play = jointPlays(found.subject, found.result).at(0);
  EXPECT_NEAR(play.asModelled.tiltRad, jamAngleRad(4, 4 + fit.clearanceMm.leastMm, 12), 1e-9);
}

// A pin of its own, pressed into the parent's cheeks; the hinge's parent is the cheeks' part, or
// the pin. A lug of 4 mm between cheeks 4.6 apart, 5 mm in radius.
TEST(Fits, PinOfItsOwnIsFoundFromEitherParent) {
  for (const bool onPin : {false, true}) {
    Mechanism m;
    const PartId cheeks =
        m.addPart("cheeks", shapes::joined({shapes::tube(5, 2, -3.3, -0.3, kFitSides),
                                            shapes::tube(5, 2, 4.3, 7.3, kFitSides)}));
    const PartId pin = m.addPart("pin", shapes::cylinder(2, -3.3, 7.3, kFitSides));
    const PartId lug = m.addPart("lug", shapes::tube(5, 2.2, 0, 4, kFitSides));
    m.addFixed(pin, cheeks);
    m.addHinge(lug, onPin ? pin : cheeks, kOrigin, kZ);
    const FoundFits found{PrintFixture(m)};
    const FitFigure& turning = found.fit(1);
    ASSERT_EQ(turning.shape, FitShape::pin);
    EXPECT_EQ(turning.pinPart, pin);
    EXPECT_EQ(turning.holePart, lug);
    EXPECT_NEAR(turning.lengthMm, 4, 1e-6);
    ASSERT_TRUE(turning.axial);
    EXPECT_NEAR(turning.axial->apartMm, 0.6, 1e-6);
    EXPECT_NEAR(turning.axial->lugMm, 4, 1e-6);
    EXPECT_NEAR(turning.axial->radiusMm, 5, 0.1);  // By samples.
    EXPECT_NEAR(turning.axial->printedMm, 0.6 - 4 * 0.05, 1e-6);
    const JointPlay play = jointPlays(found.subject, found.result).at(1);
    EXPECT_NEAR(play.asModelled.axialMm.value(), 0.3, 1e-6);
    // Cheeks stop it before the pin jams: 0.6 over 10 mm against 0.4 over 4.
    EXPECT_NEAR(play.asModelled.tiltRad, cheekAngleRad(4, 4.6, turning.axial->radiusMm), 1e-9);
    // The pin is as wide as its holes: 0.25 of interference as printed.
    EXPECT_NEAR(found.fit(0).printedMm.mostMm, -0.25, 1e-6);
    EXPECT_EQ(found.count(PrintWord::looseFit) + found.count(PrintWord::tightFit), 0u);
  }
}

// A maker who wants no clearance wants a hinge that stays where it is put. Holes print 0.15 smaller
// and pins 0.1 thicker, both on the diameter, by the default process.
TEST(Fits, AHingeThatIsToHoldIsJudgedAsAPress) {
  const auto with = [](double hole) {
    PinInTube made;
    made.hole = hole;
    Mechanism mechanism = made.mechanism();
    mechanism.joint(JointId{0}).fitMm = 0;
    return FoundFits{PrintFixture(mechanism)};
  };
  const FoundFits holds = with(5.05), loose = with(5.3);
  EXPECT_EQ(holds.count(PrintWord::tightFit), 0u) << "0.05 - 0.25 is what is wanted";
  EXPECT_EQ(holds.count(PrintWord::looseFit), 0u);
  EXPECT_EQ(loose.count(PrintWord::looseFit), 1u) << "0.3 - 0.25 holds nothing";
  EXPECT_EQ(loose.count(PrintWord::tightFit), 0u);
}

// Limits of the default process: 0.3 to 0.6 on the diameter for a pin that turns.
TEST(Fits, TightAndLooseHingesAreFound) {
  const auto with = [](double hole) {
    PinInTube made;
    made.hole = hole;
    return FoundFits{PrintFixture(made.mechanism())};
  };
  const FoundFits binds = with(5.2), tight = with(5.28), good = with(5.32), most = with(5.59),
                  loose = with(5.65);
  EXPECT_EQ(binds.count(PrintWord::tightFit), 1u);  // 0.2 - 0.25: interference as printed.
  EXPECT_NE(binds.findings.front().sentence.find("binds"), std::string::npos);
  EXPECT_EQ(tight.count(PrintWord::tightFit), 1u);
  EXPECT_NEAR(tight.findings.front().lower, 0.28, 0.005);
  EXPECT_EQ(tight.findings.front().needed, 0.3);
  EXPECT_TRUE(good.findings.empty());
  EXPECT_TRUE(most.findings.empty());
  EXPECT_EQ(loose.count(PrintWord::looseFit), 1u);
  EXPECT_NEAR(loose.findings.front().upper, 0.65, 1e-6);
}

// Pressed, as printed: clearance as modelled - 0.25; two prints differ by the root of 0.1^2 +
// 0.1^2.
TEST(Fits, PressedPinFallsOutWhereTheHoleIsAsWide) {
  const auto with = [](double hole, std::optional<double> fit = {}) {
    PinInTube made;
    made.hole = hole;
    made.type = JointType::fixed;
    made.fitMm = fit;
    return FoundFits{PrintFixture(made.mechanism())};
  };
  const FoundFits out = with(5.27), some = with(5.2), holds = with(5.1);
  EXPECT_EQ(out.fit().duty, FitDuty::pressed);
  EXPECT_EQ(out.count(PrintWord::looseFit), 1u);
  EXPECT_EQ(some.count(PrintWord::looseFit), 0u);
  EXPECT_EQ(some.count(PrintWord::looseFit, PrintGrade::hint), 1u);
  EXPECT_EQ(holds.count(PrintWord::looseFit, PrintGrade::hint), 0u);
  // Clearance is wanted: it is glued.
  EXPECT_EQ(with(5.27, 0.27).count(PrintWord::looseFit), 0u);
}

// Closed form, thick rings of one material (H-5's shape): the wall's strain is
// p / E ((o^2 + d^2) / (o^2 - d^2) + nu) with p = E delta (o^2 - d^2) / (2 d o^2).
TEST(Fits, PressedPinStrainsTheWallRoundIt) {
  PinInTube made;
  made.type = JointType::fixed;
  const double d = 5, o = 12, nu = 0.36;
  const auto strainOf = [&](double interference) {
    return interference * (o * o - d * d) / (2 * d * o * o) *
           ((o * o + d * d) / (o * o - d * d) + nu);
  };
  made.hole = 5 - 0.2;  // As modelled 0.2 mm of interference: 2.6 %; PLA takes 2.
  ASSERT_GT(strainOf(0.2), 0.02);
  const FoundFits modelled{PrintFixture(made.mechanism())};
  ASSERT_EQ(modelled.count(PrintWord::strained), 1u);
  EXPECT_NEAR(modelled.findings.front().upper, 100 * strainOf(0.2), 0.1);
  made.hole = 5;  // Only as printed: 0.25.
  const FoundFits printed{PrintFixture(made.mechanism())};
  EXPECT_EQ(printed.count(PrintWord::strained), 0u);
  ASSERT_EQ(printed.count(PrintWord::strained, PrintGrade::hint), 1u);
  EXPECT_NEAR(printed.findings.front().upper, 100 * strainOf(0.25), 0.1);
}

TEST(Fits, OtherFitThanWantedIsFound) {
  PinInTube made;
  for (const auto& [want, found] :
       {std::pair(0.4, 0u), {0.36, 0u}, {0.44, 0u}, {0.3, 1u}, {0.5, 1u}, {-0.1, 1u}}) {
    made.fitMm = want;
    const FoundFits fits{PrintFixture(made.mechanism())};
    EXPECT_EQ(fits.count(PrintWord::unwantedFit), found) << want;
  }
}

TEST(Fits, BoughtPinDoesNotGrow) {
  PrintFixture fixture(PinInTube{}.mechanism());
  fixture.prints[0].printed = false;
  const FoundFits found{fixture};
  EXPECT_NEAR(found.fit().printedMm.mostMm, 0.4 - 0.15, 1e-6);
  EXPECT_NEAR(found.fit().scatterMm, 0.1, 1e-12);
}

TEST(Fits, WhatDoesNotFitIsNotJudged) {
  Mechanism m;
  const PartId a = m.addPart("a", shapes::box({0, 0, 0}, {10, 10, 10}));
  const PartId b = m.addPart("b", shapes::box({10.4, 0, 0}, {20, 10, 10}));
  m.addHinge(b, a, {10.2, 0, 0}, kZ);
  m.addHinge(a, std::nullopt, kOrigin, kZ);
  const FoundFits found{PrintFixture(m)};
  EXPECT_EQ(found.fit(0).shape, FitShape::none);
  EXPECT_FALSE(found.fit(0).reason.empty());
  EXPECT_EQ(found.fit(1).reason, "it stands on the ground");
  EXPECT_TRUE(found.findings.empty());
  const auto plays = jointPlays(found.subject, found.result);
  EXPECT_EQ(plays.at(0).source, PlaySource::unknown);
  EXPECT_EQ(jointFrictions(found.subject, found.result).at(0).model, FrictionModel::unknown);
}

// A block in a square channel: 0.4 mm a side one way, 0.3 the other.
TEST(Fits, GuidesOfASlideTellBothSidesTogether) {
  Mechanism m;
  const PartId channel =
      m.addPart("channel", shapes::joined({shapes::box({-8, -8, 0}, {8, -5.4, 60}),
                                           shapes::box({-8, 5.4, 0}, {8, 8, 60}),
                                           shapes::box({-8, -5.4, 0}, {-5.3, 5.4, 60}),
                                           shapes::box({5.3, -5.4, 0}, {8, 5.4, 60})}));
  const PartId block = m.addPart("block", shapes::box({-5, -5, 10}, {5, 5, 50}));
  m.addSlide(block, channel, kZ);
  const FoundFits found{PrintFixture(m)};
  ASSERT_EQ(found.fit().shape, FitShape::guide);
  EXPECT_NEAR(found.fit().clearanceMm.leastMm, 0.6, 1e-9);
  EXPECT_GE(found.fit().clearanceMm.mostMm, 0.8 - 1e-9);
  EXPECT_NEAR(found.fit().printedMm.leastMm, 0.6 - 4 * 0.05, 1e-9);
  // 40 mm long: it tilts by about what is free over that.
  EXPECT_NEAR(found.fit().lengthMm, 40, 1e-9);
  EXPECT_NEAR(jointPlays(found.subject, found.result).at(0).asModelled.tiltRad,
              std::atan(found.fit().clearanceMm.mostMm / 40), 1e-12);
  EXPECT_TRUE(found.findings.empty());  // 0.3 mm a side is the least of the default process.
}

/// A ball of 10 mm on a foot below, in a socket of 10.2.
Mechanism ballInSocket(double lip, double turnRad = 2 * kPi) {
  std::mt19937_64 random(5);
  const Pose X = shapes::randomPose(random, 30);
  Mechanism m;
  const PartId ball = m.addPart("ball", shapes::moved(shapes::sphere(5, 4), X));
  const PartId socket =
      m.addPart("socket", shapes::moved(socketWithLip(5.1, lip, kFitSides, turnRad), X));
  m.addBall(socket, ball, X * kOrigin);
  return m;
}

// Check values 5.3 with the socket's own ball of 10.2 mm: the rim is a 96-gon on the circle of
// 2 sqrt(R^2 - h^2), and its facets stand in by their sagitta. Closed form.
TEST(Fits, BallIsSnappedThroughItsOpening) {
  for (const double lip : {1.0, 1.5, 2.0}) {
    const FoundFits found{PrintFixture(ballInSocket(lip))};
    const FitFigure& fit = found.fit();
    ASSERT_EQ(fit.shape, FitShape::ball) << lip;
    EXPECT_NEAR(fit.pinMm, 10, 1e-6);
    EXPECT_NEAR(fit.holeMm, 10.2, 1e-6);
    EXPECT_NEAR(fit.clearanceMm.mostMm, 0.2, 1e-6);
    ASSERT_TRUE(fit.lip);
    const double opening = 2 * std::sqrt(5.1 * 5.1 - lip * lip) * std::cos(kPi / kFitSides);
    EXPECT_NEAR(fit.lip->openingMm, opening, 1e-3);
    EXPECT_NEAR(fit.lip->lipMm, lip, 1e-3);
    EXPECT_NEAR(fit.lip->strain, (10 - opening) / opening, 2e-4);
    const bool strains = (10 - opening) / opening > 0.02;  // PLA, once.
    EXPECT_EQ(found.count(PrintWord::strained), strains ? 1u : 0u) << lip;
    EXPECT_FALSE(strains && fit.lip->slotted()) << lip;
  }
}

TEST(Fits, SlottedSocketsRingIsAnUpperBound) {
  const FoundFits found{PrintFixture(ballInSocket(2, 1.5 * kPi))};
  ASSERT_TRUE(found.fit().lip);
  EXPECT_TRUE(found.fit().lip->slotted());
  EXPECT_EQ(found.count(PrintWord::strained), 0u);
}

TEST(Fits, ShallowSocketLetsItsBallGo) {
  const FoundFits found{PrintFixture(ballInSocket(-0.5))};
  ASSERT_TRUE(found.fit().lip);
  EXPECT_EQ(found.fit().lip->lipMm, 0);
  EXPECT_EQ(found.fit().lip->strain, 0);
}

/// A foot, a stem of 4.8 mm and a head of 6 on it, through a hole of 5.2 in a plate of 3.8 mm.
Mechanism mushroom(double foot, double head) {
  Mechanism m;
  const PartId peg = m.addPart(
      "peg",
      lathed({{0, -3}, {foot, -3}, {foot, 0}, {2.4, 0}, {2.4, 4}, {head, 4}, {head, 5}, {0, 5}},
             kFitSides));
  const PartId plate = m.addPart("plate", shapes::tube(8, 2.6, 0.1, 3.9, kFitSides));
  m.addHinge(plate, peg, kOrigin, kZ);
  return m;
}

// Closed form: (6 - 5.2) / 5.2.
TEST(Fits, MushroomsHeadStrainsTheHole) {
  const FoundFits found{PrintFixture(mushroom(6, 3))};
  const FitFigure& fit = found.fit();
  ASSERT_TRUE(fit.head);
  EXPECT_NEAR(fit.head->headMm, 6, 1e-6);
  EXPECT_NEAR(fit.head->strain, 0.8 / 5.2, 1e-6);
  EXPECT_FALSE(fit.head->slotted);
  EXPECT_EQ(found.count(PrintWord::strained), 1u);
  ASSERT_TRUE(fit.axial);
  EXPECT_NEAR(fit.axial->apartMm, 0.2, 1e-6);
  EXPECT_NEAR(fit.axial->lugMm, 3.8, 1e-6);
}

TEST(Fits, BoltGoesInFromItsPlainEnd) {
  EXPECT_FALSE(FoundFits{PrintFixture(mushroom(2.4, 3))}.fit().head);
  EXPECT_FALSE(FoundFits{PrintFixture(mushroom(6, 2.4))}.fit().head);
}

// A clip of three quarters of a turn goes on from the side.
TEST(Fits, OpenClipIsNotPushedOverAHead) {
  Mechanism m;
  const PartId peg = m.addPart(
      "peg",
      lathed({{0, -3}, {3, -3}, {3, 0}, {2.4, 0}, {2.4, 4}, {3, 4}, {3, 5}, {0, 5}}, kFitSides));
  const PartId clip =
      m.addPart("clip", lathed({{2.6, 0.1}, {5, 0.1}, {5, 3.9}, {2.6, 3.9}}, kFitSides, 1.5 * kPi));
  m.addHinge(clip, peg, kOrigin, kZ);
  const FoundFits found{PrintFixture(m)};
  ASSERT_EQ(found.fit().shape, FitShape::pin);
  EXPECT_NEAR(found.fit().openShare, 0.25, 0.05);
  EXPECT_FALSE(found.fit().head);
}

// A peg in a slot of 5.2 mm along x: its walls bend apart, so that the ring is only a bound.
TEST(Fits, MushroomsHeadInASlotIsAHint) {
  Mechanism m;
  const PartId plate =
      m.addPart("plate", shapes::joined({shapes::box({-20, 2.6, 0.2}, {20, 8, 3.8}),
                                         shapes::box({-20, -8, 0.2}, {20, -2.6, 3.8})}));
  const PartId peg = m.addPart(
      "peg",
      lathed({{0, -3}, {6, -3}, {6, 0}, {2.4, 0}, {2.4, 4}, {3, 4}, {3, 5}, {0, 5}}, kFitSides));
  m.addSlide(peg, plate, Vector3d::UnitX());
  const FoundFits found{PrintFixture(m)};
  ASSERT_EQ(found.fit().shape, FitShape::guide);
  ASSERT_TRUE(found.fit().head);
  EXPECT_TRUE(found.fit().head->inSlot);
  EXPECT_NEAR(found.fit().head->headMm, 6, 1e-6);
  EXPECT_NEAR(found.fit().head->holeMm, 5.2, 1e-6);
  EXPECT_EQ(found.count(PrintWord::strained), 0u);
  EXPECT_EQ(found.count(PrintWord::strained, PrintGrade::hint), 1u);
}

// H-5's fit: as printed 0.05 mm of interference, E 2300, nu 0.36, f 0.3 and 0.1; L 8. 1 %: what the
// hole's and the wall's facets do.
TEST(Fits, PressedJointHoldsByFriction) {
  PinInTube made;
  made.hole = 5;
  made.high = 8;
  PrintFixture fixture(made.mechanism());
  for (PartPrint& print : fixture.prints) {
    print.process.growthOutsideMm.value = 0;
    print.process.holeShrinkMm.value = 0.05 - 2 * shapes::sagitta(2.5, kFitSides);
    print.material.modulusMPa.value = 2300;
    print.material.frictionLow.value = 0.1;
    print.material.frictionHigh.value = 0.3;
  }
  const FoundFits found{fixture};
  const JointFriction friction = jointFrictions(found.subject, found.result).at(0);
  EXPECT_EQ(friction.model, FrictionModel::press);
  EXPECT_NEAR(friction.pressureMPa, 9.503472, 0.01 * 9.5);
  EXPECT_NEAR(friction.torqueHighNmm, 895.6812, 9);
  EXPECT_LT(friction.torqueLowNmm, friction.torqueHighNmm / 3 + 1);
  EXPECT_GT(friction.torqueLowNmm, friction.torqueHighNmm / 3 * 0.93);
  EXPECT_NEAR(friction.hubStressMPa, 13.49653, 0.14);
  EXPECT_GT(friction.tightestNmm, friction.torqueHighNmm);
}

// A lug 4.2 mm thick between cheeks of 3 mm, 4 apart, with faces from 2.2 to 5 mm: closed forms of
// the two models (a cantilever as long and as wide as the faces; all pressed together).
TEST(Fits, SqueezedLugIsClamped) {
  Mechanism m;
  const PartId fork = m.addPart("fork", shapes::joined({shapes::tube(5, 1.9, -3, 0, kFitSides),
                                                        shapes::tube(5, 1.9, 4, 7, kFitSides),
                                                        shapes::cylinder(1.9, -3, 7, kFitSides)}));
  const PartId lug = m.addPart("lug", shapes::tube(5, 2.2, -0.1, 4.1, kFitSides));
  m.addHinge(lug, fork, kOrigin, kZ);
  PrintFixture fixture(m);
  fixture.growBy(0);
  for (PartPrint& print : fixture.prints) {
    print.material.modulusMPa.value = 2000;
    print.material.frictionLow.value = 0.2;
    print.material.frictionHigh.value = 0.5;
  }
  const FoundFits found{fixture};
  ASSERT_TRUE(found.fit().axial);
  const AxialStop& stop = *found.fit().axial;
  EXPECT_NEAR(stop.apartMm, -0.2, 1e-6);
  EXPECT_NEAR(stop.lugMm, 4.2, 1e-6);
  EXPECT_NEAR(stop.cheekMm, 3, 1e-6);
  const JointFriction friction = jointFrictions(found.subject, found.result).at(0);
  EXPECT_EQ(friction.model, FrictionModel::clamp);
  // 3 E I y / l^3: I = 10 x 3^3 / 12 = 22.5, y 0.1, l 10: 13.5 N. Two faces, (5 + 2.2) / 2.
  EXPECT_NEAR(friction.torqueLowNmm, 2 * 0.2 * 13.5 * 3.6, 0.04 * 19.4);  // Radii by samples.
  const double rigid = 2000 * 0.2 / (4.2 + 6) * kPi * (25 - 2.2 * 2.2);
  EXPECT_NEAR(friction.torqueHighNmm,
              2 * 2.0 / 3 * 0.5 * rigid * (125 - std::pow(2.2, 3)) / (25 - 2.2 * 2.2), 0.05 * 5200);
}

// A lug that hangs elsewhere by its other mount and comes onto the pin by a slide: the hinge's axis
// goes with the slide.
TEST(Fits, FitIsFoundInTheModeThatBringsItTogether) {
  Mechanism m;
  const PartId pin = m.addPart("pin", shapes::cylinder(2.5, -5, 15, kFitSides));
  const Pose away = translation(Vector3d(50, 0, 0));
  const PartId lug = m.addPart("lug", shapes::moved(shapes::tube(6, 2.7, 0, 8, kFitSides), away));
  const JointId slide = m.addSlide(lug, pin, -Vector3d::UnitX());
  const JointId hinge = m.addHinge(lug, pin, away * kOrigin, kZ);
  m.addStep(slide, {50, 0, 0});
  m.addStep(hinge, deg(70));
  const FoundFits found{PrintFixture(m)};
  ASSERT_EQ(found.fit(1).shape, FitShape::pin);
  EXPECT_EQ(found.fit(1).mode, ModeId{1});
  EXPECT_NEAR(found.fit(1).at_W.head<2>().norm(), 0, 1e-6);
  EXPECT_NEAR(found.fit(1).clearanceMm.mostMm, 0.4, 1e-6);
}

TEST(Fits, LoosePinHoldsNothing) {
  const FoundFits found{PrintFixture(PinInTube{}.mechanism())};
  const JointFriction friction = jointFrictions(found.subject, found.result).at(0);
  EXPECT_EQ(friction.model, FrictionModel::none);
  EXPECT_EQ(friction.torqueHighNmm, 0);
  EXPECT_NEAR(friction.armHighMm, 0.5 * 2.5, 1e-6);  // u x r.
}

TEST(Fits, OneThreadAndFourGiveTheSame) {
  const PrintFixture fixture(ballInSocket(1.5));
  PrintSubject subject = fixture.subject();
  WorkMonitor monitor;
  const FitsResult one = checkFits(subject, monitor);
  subject.threads = 4;
  EXPECT_EQ(one, checkFits(subject, monitor));
}

}  // namespace
}  // namespace swingroom
