// The space that a part may fill, against closed forms.
#include <gtest/gtest.h>

#include <cmath>

#include "core/room/space/crossing_repair.h"
#include "tests/core/room/space_fixture.h"

namespace swingroom {
namespace {

using shapes::box;

/// A part that stands, with something far away that moves: so there is a way.
void addFarSlide(Mechanism& mechanism) {
  const PartId far = mechanism.addPart("far", box({90, 90, 90}, {91, 91, 91}));
  mechanism.addStep(mechanism.addSlide(far, std::nullopt, {1, 0, 0}), {5, 0, 0});
}

/// What a box loses at most along its edges: the lattice cuts each corner of a section off by less than a cell.
double edgeLoss(const Vector3d& sizes, double pitchMm) { return 4 * sizes.sum() * pitchMm * pitchMm; }

TEST(RoomSpace, EndsWhereAWallWantsItsGap) {
  Mechanism mechanism;
  const PartId part = mechanism.addPart("part", box({-1, -1, -1}, {1, 1, 1}));
  mechanism.addPart("wall", box({3, -20, -20}, {4, 20, 20}));
  addFarSlide(mechanism);
  SpaceCase asked(mechanism, part);
  asked.settings.within = WithinBox{{Vector3d(-3, -3, -3), Vector3d(5, 3, 3)}};
  const auto space = asked.room();
  ASSERT_TRUE(space.ok());
  expectSound(space->mesh);
  // Closed form: x from -3 to 3 - 0.3, y and z the box's.
  EXPECT_LE(boundsOf(space->mesh).max().x(), 2.7 + 1e-5);
  EXPECT_GE(boundsOf(space->mesh).max().x(), 2.7 - space->lossMm);
  const double most = 5.7 * 6 * 6;
  EXPECT_LE(space->volumeMm3, most + 1e-3);
  EXPECT_GE(space->volumeMm3, most - 36 * (space->lossMm + 0.002) - edgeLoss({5.7, 6, 6}, 0.25));
  // Behind the wall is room too, from 4.3 to 5, which the part cannot come to.
  EXPECT_EQ(space->pocketsLeftOut, 1u);
  EXPECT_LE(space->pocketsMm3, 0.7 * 36);
  EXPECT_TRUE(space->objections.empty());
  EXPECT_EQ(asked.verdictWith(space->mesh), Verdict::clear);
}

// Seen from a part that slides 6 along x, a plate over it is a plate that is 6 longer.
TEST(RoomSpace, UnderAPlateThatItSlidesAlongIsFlat) {
  Mechanism mechanism;
  const PartId part = mechanism.addPart("part", box({-1, -1, -1}, {1, 1, 1}));
  mechanism.addPart("plate", box({4, -50, 2}, {5, 50, 3}));
  mechanism.addStep(mechanism.addSlide(part, std::nullopt, {1, 0, 0}), {6, 0, 0});
  SpaceCase asked(mechanism, part);
  asked.settings.within = WithinBox{{Vector3d(-1.5, -2, -2), Vector3d(1.5, 2, 2.5)}};
  const auto space = asked.room();
  ASSERT_TRUE(space.ok());
  expectSound(space->mesh);
  // The plate passes x from -2 to 5: over all of the box the room ends at 2 - 0.3.
  const double most = 3 * 4 * 3.7;
  EXPECT_LE(boundsOf(space->mesh).max().z(), 1.7 + 1e-5);
  EXPECT_LE(space->volumeMm3, most + 1e-3);
  EXPECT_GE(space->volumeMm3, most - 12 * (space->lossMm + 0.002) - edgeLoss({3, 4, 3.7}, 0.25));
  EXPECT_EQ(asked.verdictWith(space->mesh), Verdict::clear);
}

// Whatever turns in a ring may be as wide as the ring is less the gap.
TEST(RoomSpace, OfABarThatTurnsInARingIsADisc) {
  constexpr int kSides = 128;
  constexpr double kCoarseMm = 0.5;  // The sanitizers take minutes for a fine one.
  Mechanism mechanism;
  const PartId bar = mechanism.addPart("bar", box({-5, -1, -1}, {5, 1, 1}));
  mechanism.addPart("ring", shapes::tube(12, 8, -6, 6, kSides));
  mechanism.addStep(mechanism.addHinge(bar, std::nullopt, kOrigin, kZ), deg(180));
  SpaceCase asked(mechanism, bar);
  asked.settings.within = WithinBox{{Vector3d(-9, -9, -1.5), Vector3d(9, 9, 1.5)}};
  asked.settings.pitchMm = kCoarseMm;
  const auto space = asked.room();
  ASSERT_TRUE(space.ok());
  expectSound(space->mesh);
  // The ring's flats come to 8 less its sagitta.
  const double radius = 8 - 0.3;
  EXPECT_LE(space->volumeMm3, kPi * radius * radius * 3);
  const double least = radius - shapes::sagitta(8, kSides) - space->lossMm - 0.002;
  EXPECT_GE(space->volumeMm3, kPi * least * least * 3 - 2 * 2 * kPi * radius * kCoarseMm * kCoarseMm);
  EXPECT_EQ(asked.verdictWith(space->mesh), Verdict::clear);
}

TEST(RoomSpace, InASphericalCavityIsABallOfItsRadiusLessTheGap) {
  Mechanism mechanism;
  const PartId ball = mechanism.addPart("ball", shapes::sphere(3, 3));
  const TriangleMesh cavity = shapes::reversed(shapes::sphere(6, 4));
  mechanism.addPart("shell", shapes::joined({box({-8, -8, -8}, {8, 8, 8}), cavity}));
  addFarSlide(mechanism);
  SpaceCase asked(mechanism, ball);
  asked.settings.within = WithinGrown{4};
  const auto space = asked.room();
  ASSERT_TRUE(space.ok());
  expectSound(space->mesh);
  EXPECT_LE(space->volumeMm3, 4.0 / 3 * kPi * std::pow(5.7, 3));
  // An icosahedron split four times: its edges are at most 1.18 / 16 of the radius, so its faces come at most
  // (edge / sqrt 3)^2 / 2R nearer. The room's own faces lie inside their corners by less than the pitch squared by 8 r.
  const double face = std::pow(6 * 1.18 / 16 / std::sqrt(3), 2) / 12;
  const double least = 5.7 - face - space->lossMm - 0.25 * 0.25 / (8 * 5.7);
  EXPECT_GE(space->volumeMm3, 4.0 / 3 * kPi * std::pow(least, 3));
  EXPECT_EQ(asked.verdictWith(space->mesh), Verdict::clear);
}

TEST(RoomSpace, OfAFreePartIsThePartGrown) {
  Mechanism mechanism;
  const PartId part = mechanism.addPart("part", shapes::sphere(2, 4));
  addFarSlide(mechanism);
  SpaceCase asked(mechanism, part);
  asked.settings.within = WithinGrown{1.5};
  const auto space = asked.room();
  ASSERT_TRUE(space.ok());
  expectSound(space->mesh);
  EXPECT_LE(space->volumeMm3, 4.0 / 3 * kPi * std::pow(3.5, 3));
  EXPECT_GE(space->volumeMm3, 4.0 / 3 * kPi * std::pow(3.5 - 0.02 - 0.25 * 0.25 / (8 * 3.5), 3));
}

// On a coarse grid cubes are larger than the part is grown by: those round its middle reach beyond that.
TEST(RoomSpace, IsNowhereLargerThanThePartGrownOnACoarseGridEither) {
  Mechanism mechanism;
  const PartId part = mechanism.addPart("part", box({-5, -5, -1.5}, {5, 5, 1.5}));
  addFarSlide(mechanism);
  SpaceCase asked(mechanism, part);
  asked.settings.within = WithinGrown{0.5};
  asked.settings.pitchMm = 0.5;
  const auto space = asked.room();
  ASSERT_TRUE(space.ok());
  expectSound(space->mesh);
  const Eigen::AlignedBox3d bounds = boundsOf(space->mesh);
  EXPECT_LE((bounds.max() - Vector3d(5.5, 5.5, 2)).maxCoeff(), 1e-4);
  EXPECT_LE((Vector3d(-5.5, -5.5, -2) - bounds.min()).maxCoeff(), 1e-4);
  // Steiner's formula for a box grown by r.
  const double r = 0.5, area = 2 * (100 + 2 * 30), edges = 4 * 23;
  EXPECT_LE(space->volumeMm3, 300 + area * r + edges * kPi / 4 * r * r + 4 * kPi / 3 * r * r * r);
  EXPECT_GE(space->volumeMm3, 300 + area * r * 0.9);
}

// A pin of radius 2 that turns in an eye by a fit of 0.4: without a zone it could not stand there at all.
TEST(RoomSpace, HoldsThePartsOwnSolidInItsJointZones) {
  Mechanism mechanism;
  const PartId eye = mechanism.addPart("eye", shapes::tube(6, 2.2, -2, 2, 64));
  const PartId pin = mechanism.addPart("pin", shapes::cylinder(2, -5, 5, 64));
  const JointId hinge = mechanism.addHinge(pin, eye, kOrigin, kZ);
  mechanism.joint(hinge).zones.push_back({2.7, -2.5, 2.5});
  mechanism.joint(hinge).fitMm = 0.4;
  mechanism.addStep(hinge, deg(90));
  SpaceCase asked(mechanism, pin);
  asked.settings.within = WithinGrown{2};
  asked.settings.pitchMm = 0.5;
  const auto space = asked.room();
  ASSERT_TRUE(space.ok());
  expectSound(space->mesh);
  EXPECT_TRUE(space->objections.empty());
  EXPECT_EQ(asked.verdictWith(space->mesh), Verdict::clear);
  const double pinMm3 = massProperties(*asked.assembly.part(pin).mesh).volumeMm3;
  EXPECT_GT(space->volumeMm3, pinMm3 + 2 * kPi * (16 - 4) * 2);  // Above and below the eye it may grow by 2.
  // In the zone, half a millimetre inside its ends, nothing is wider than the pin.
  for (const Vector3d& p : space->mesh.vertices) {
    if (std::abs(p.z()) < 2) {
      EXPECT_LT(p.head<2>().norm(), 2 + 1e-4);
    }
  }
  SpaceCase other(mechanism, eye);
  other.settings.within = WithinGrown{2};
  other.settings.pitchMm = 0.5;
  const auto around = other.room();
  ASSERT_TRUE(around.ok());
  EXPECT_EQ(other.verdictWith(around->mesh), Verdict::clear);
}

TEST(RoomSpace, DoesNotOfferToTouchMoreThanAContactDoes) {
  Mechanism mechanism;
  const PartId part = mechanism.addPart("part", box({-1, -1, 0}, {1, 1, 2}));
  const PartId deck = mechanism.addPart("deck", box({-9, -9, -1}, {9, 9, 0}));
  mechanism.addStep(mechanism.addSlide(part, std::nullopt, kZ), {3, 0, 0});
  PairRule rule{part, deck, {}, {}, {}};
  Contact rest;
  rest.modes = {ModeId{0}};
  rule.contacts = {rest};
  mechanism.parts().pairRules = {rule};
  SpaceCase asked(mechanism, part);
  asked.settings.within = WithinGrown{2};
  const auto space = asked.room();
  ASSERT_TRUE(space.ok());
  expectSound(space->mesh);
  EXPECT_TRUE(space->objections.empty());
  EXPECT_NEAR(boundsOf(space->mesh).min().z(), 0, 1e-4) << "its sole still stands on the deck";
  for (const Vector3d& p : space->mesh.vertices) {
    if (p.head<2>().cwiseAbs().maxCoeff() > 1 + 1e-3) {
      EXPECT_GE(p.z(), 0.3 - 1e-4);
    }
  }
  EXPECT_EQ(asked.verdictWith(space->mesh), Verdict::clear);
}

TEST(RoomSpace, CutsThePartAwayWhereItIsTooNear) {
  Mechanism mechanism;
  const PartId part = mechanism.addPart("part", box({-1, -1, -1}, {1, 1, 1}));
  mechanism.addPart("wall", box({1.1, -20, -20}, {2, 20, 20}));
  addFarSlide(mechanism);
  SpaceCase asked(mechanism, part);
  asked.settings.within = WithinGrown{1};
  ASSERT_EQ(asked.verdictWith(*asked.assembly.part(part).mesh), Verdict::tight);
  const auto space = asked.room();
  ASSERT_TRUE(space.ok());
  expectSound(space->mesh);
  EXPECT_EQ(space->objections, std::vector<SpaceObjection>{SpaceObjection{PartId{1}}});
  EXPECT_LE(boundsOf(space->mesh).max().x(), 0.8 + 1e-5);
  EXPECT_EQ(asked.verdictWith(space->mesh), Verdict::clear);
}

TEST(RoomSpace, AllowedPairsAreNoObstacleAndFixedOnesMayTouch) {
  Mechanism mechanism;
  const PartId part = mechanism.addPart("part", box({-1, -1, -1}, {1, 1, 1}));
  const PartId allowed = mechanism.addPart("allowed", box({1.5, -20, -20}, {2, 20, 20}));
  const PartId glued = mechanism.addPart("glued", box({-3, -20, -20}, {-1, 20, 20}));
  mechanism.addFixed(glued, part);
  mechanism.parts().pairRules = {{part, allowed, {}, {}, "soft"}};
  addFarSlide(mechanism);
  SpaceCase asked(mechanism, part);
  asked.settings.within = WithinBox{{Vector3d(-2, -2, -2), Vector3d(2, 2, 2)}};
  const auto space = asked.room();
  ASSERT_TRUE(space.ok());
  EXPECT_GT(space->lossAtTouchMm, 0);
  const double least = (3 - space->lossAtTouchMm) * 16 - edgeLoss({3, 4, 4}, 0.25);
  EXPECT_GE(space->volumeMm3, least);
  EXPECT_LE(space->volumeMm3, 48 + 1e-3);
  // The chosen box itself is met to 0.03.
  EXPECT_GE(boundsOf(space->mesh).max().x(), 2 - 0.03);
}

// Two slides in any order: the part may be anywhere in a square of 4, so that a post is, seen from it, one of 4 more.
TEST(RoomSpace, CountsEveryCombinationOfAStepInAnyOrder) {
  Mechanism mechanism;
  const PartId carriage = mechanism.addPart("carriage", box({-1, -1, -9}, {1, 1, -8}));
  const PartId part = mechanism.addPart("part", box({-1, -1, -1}, {1, 1, 1}));
  mechanism.addPart("post", box({5, 5, -20}, {6, 6, 20}));
  const JointId x = mechanism.addSlide(carriage, std::nullopt, {1, 0, 0});
  const JointId y = mechanism.addSlide(part, carriage, {0, 1, 0});
  mechanism.addStep({{x, {2, 0, 0}}, {y, {2, 0, 0}}}, StepOrder::free);
  SpaceCase asked(mechanism, part);
  asked.settings.within = WithinBox{{Vector3d(-2, -2, -2), Vector3d(5, 5, 2)}};
  const auto space = asked.room();
  ASSERT_TRUE(space.ok());
  expectSound(space->mesh);
  // Seen from the part the post's near corner comes to (3, 3): a square of 2 (and 0.3 more, round at its corner) is
  // taken out of 7 x 7. Moving both together it would take out no more than a strip along the diagonal.
  const double taken = 2 * 2 + 2 * 2 * 0.3 + kPi / 4 * 0.09;
  const double most = (49 - taken) * 4;
  EXPECT_LE(space->volumeMm3, most + 1e-3);
  EXPECT_GE(space->volumeMm3, most - 5 * 4 * space->lossMm - edgeLoss({7, 7, 4}, 0.25) - 0.03 * 2 * 105);
  EXPECT_EQ(asked.verdictWith(space->mesh), Verdict::clear);
}

// A part whose file is in inches, mirrored by a plane that no single precision knows: it is rounded as it is written.
TEST(RoomSpace, IsInTheFileAsItIsAndDoesNotCrossItselfThere) {
  Mechanism mechanism;
  const PartId part = mechanism.addPart("part", shapes::torus(4, 1.5, 48, 24));
  mechanism.addPart("wall", box({6.1, -20, -20}, {7, 20, 20}));
  addFarSlide(mechanism);
  SpaceCase asked(mechanism, part);
  asked.settings.pitchMm = 0.5;
  const auto inPart = asked.room();
  asked.settings.X_FileSpace.linear() = Vector3d(-1, 1, 1).asDiagonal() * (1 / 25.4);
  asked.settings.X_FileSpace.translation() = Vector3d(1.0 / 3, 0, 0);
  const auto inFile = asked.room();
  ASSERT_TRUE(inPart.ok() && inFile.ok());
  for (const auto* space : {&*inPart, &*inFile}) {
    expectSound(space->mesh);
    EXPECT_EQ(space->crossings, 0u);
    WorkMonitor monitor;
    EXPECT_TRUE(crossingsIn(space->mesh, 1, monitor).none());
    for (const Vector3d& p : space->mesh.vertices) ASSERT_EQ(inFilePrecision(p), p);
  }
  EXPECT_NEAR(inFile->volumeMm3, inPart->volumeMm3, 1e-6);
  // A millionth of an inch at every corner.
  EXPECT_NEAR(massProperties(inFile->mesh).volumeMm3 * std::pow(25.4, 3), inPart->volumeMm3, 0.05);
}

TEST(RoomSpace, TheSameBytesByOneThreadAndFour) {
  Mechanism mechanism;
  const PartId bar = mechanism.addPart("bar", box({-3, -1, -1}, {3, 1, 1}));
  mechanism.addPart("post", shapes::cylinder(1, -3, 3, 24));
  mechanism.parts().parts.back().X_WP_home = translation({5, 1, 0});
  mechanism.addStep(mechanism.addHinge(bar, std::nullopt, {-3, 0, 0}, kZ), deg(30));
  const SpaceCase one(mechanism, bar, 1);
  const SpaceCase four(mechanism, bar, 4);
  const auto a = one.room(), b = four.room();
  ASSERT_TRUE(a.ok() && b.ok());
  EXPECT_EQ(a->mesh, b->mesh);
}

TEST(RoomSpace, StopsWhenItIsTold) {
  Mechanism mechanism;
  const PartId part = mechanism.addPart("part", box({-1, -1, -1}, {1, 1, 1}));
  mechanism.addPart("wall", box({3, -20, -20}, {4, 20, 20}));
  addFarSlide(mechanism);
  const SpaceCase asked(mechanism, part);
  for (const std::size_t at : {std::size_t{1}, std::size_t{50}, std::size_t{80}}) {
    WorkMonitor* told = nullptr;
    WorkMonitor monitor([&](std::size_t done, std::size_t) {
      if (done >= at) told->cancel();
    });
    told = &monitor;
    const auto space = roomSpace(asked.subject, asked.settings, monitor);
    ASSERT_FALSE(space.ok());
    EXPECT_EQ(space.problems().front().what, "was stopped");
  }
}

TEST(RoomSpace, SaysWhatItCannotDo) {
  Mechanism mechanism;
  const PartId part = mechanism.addPart("part", box({-1, -1, -1}, {1, 1, 1}));
  TriangleMesh open = box({5, 5, 5}, {6, 6, 6});
  open.triangles.pop_back();
  const PartId opened = mechanism.addPart("open", open);
  addFarSlide(mechanism);
  SpaceCase asked(mechanism, part);
  asked.settings.pitchMm = 0.001;
  EXPECT_NE(asked.room().problems().front().what.find("million points"), std::string::npos);
  SpaceCase other(mechanism, opened);
  EXPECT_NE(other.room().problems().front().what.find("not closed"), std::string::npos);
  asked.settings.pitchMm = 0;
  EXPECT_THROW((void)asked.room(), std::invalid_argument);
}

}  // namespace
}  // namespace swingroom
