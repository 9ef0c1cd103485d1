// Growth limits against closed forms: check values M-1 to M-3 and a ball in a round cavity.
#include "core/room/growth.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/mechanism.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

using shapes::box;

constexpr double kGapMm = 0.3;  // What Mechanism asks for.

struct Limits {
  GrowthLimit scale, offset;
};

Limits limitsOf(const Mechanism& mechanism, PartId part, const Vector3d& centre, const GrowthSettings& settings) {
  const Assembly assembly = mechanism.assembly();
  const std::vector<Sequence> ways{mechanism.sequence()};
  const AssemblyGeometry geometry = prepareGeometry(assembly, 1);
  WorkMonitor monitor;
  const RoomSubject subject{assembly, ways, geometry, part};
  return {scaleLimit(subject, centre, settings, monitor), offsetLimit(subject, settings, monitor)};
}

GrowthSettings growthTo(double resolutionMm = 0.02) {
  GrowthSettings settings;
  settings.resolutionMm = resolutionMm;
  settings.pieceMm = 4;
  settings.threads = 1;
  return settings;
}

/// The bracket holds the true figure, from both sides, and is as narrow as asked.
void expectLimit(const GrowthLimit& limit, double least, double most, double width) {
  EXPECT_FALSE(limit.none);
  EXPECT_TRUE(limit.done);
  ASSERT_TRUE(limit.broken);
  EXPECT_LE(limit.proven, most + 1e-9);
  EXPECT_GE(*limit.broken, least - 1e-9);
  EXPECT_LE(*limit.broken - limit.proven, width + 1e-9);
  EXPECT_TRUE(limit.stop);
}

Mechanism growthByWall(double wall) {
  Mechanism mechanism;
  const PartId part = mechanism.addPart("box", box({0, 0, 0}, {40, 30, 10}));
  mechanism.addPart("wall", box({wall, -80, -30}, {wall + 5, 80, 40}));
  mechanism.addStep(mechanism.addHinge(part, std::nullopt, kOrigin, kZ), deg(-90));
  return mechanism;
}

/// A gap of the required one less 1e-4 still counts as meeting it, as in the check: what that makes of scale.
double slackOf(double reachMm, double steepness) { return 1.5e-4 / (reachMm * steepness); }

TEST(Growth, BoxByAWallScaledAboutItsPivotReachesTheWall) {
  // M-1: the corner's radius 50 grows to 52 less the gap.
  const Limits limits = limitsOf(growthByWall(52), PartId{0}, kOrigin, growthTo());
  const double scale = (52 - kGapMm) / 50;
  expectLimit(limits.scale, scale, scale + slackOf(50, 1), 0.02 / std::hypot(50, 10));
  expectLimit(limits.offset, 2 - kGapMm, 2 - kGapMm, 0.02);
  for (const GrowthLimit& limit : {limits.scale, limits.offset}) {
    EXPECT_EQ(limit.stop->part, PartId{1});
    EXPECT_NEAR(limit.stop->instant * 90, 36.87, 6);
    EXPECT_LT((limit.stop->place_P.head<2>() - Eigen::Vector2d(40, 30)).norm(), 4);
  }
}

TEST(Growth, BoxScaledAboutAFacesMiddleMovesAslantToWhatStopsIt) {
  // About (40, 15): the corner goes to (40, 15 + 15 s), its radius to 51.7.
  const Limits limits = limitsOf(growthByWall(52), PartId{0}, {40, 15, 5}, growthTo());
  const double scale = (std::sqrt(51.7 * 51.7 - 1600) - 15) / 15;
  expectLimit(limits.scale, scale, scale + slackOf(15, 0.6), 0.02 / 30);
}

TEST(Growth, RotorInASlotGrowsToItsWidth) {
  // M-3 at width 46, half a turn.
  Mechanism mechanism;
  const PartId part = mechanism.addPart("rotor", box({-20, -10, 0}, {20, 10, 8}));
  mechanism.addPart("port wall", box({-60, 23, -10}, {60, 28, 20}));
  mechanism.addPart("starboard wall", box({-60, -28, -10}, {60, -23, 20}));
  mechanism.addStep(mechanism.addHinge(part, std::nullopt, kOrigin, kZ), deg(180));
  const Limits limits = limitsOf(mechanism, part, kOrigin, growthTo());
  const double scale = (23 - kGapMm) / std::sqrt(500.0);
  expectLimit(limits.scale, scale, scale + slackOf(22, 1), 0.02 / 22);
  expectLimit(limits.offset, 0.6393202 - kGapMm - 1e-7, 0.6393202 - kGapMm + 1e-7, 0.02);
}

TEST(Growth, BallInARoundCavityGrowsToIt) {
  Mechanism mechanism;
  const TriangleMesh cavity = shapes::sphere(12, 4);
  const PartId part = mechanism.addPart("ball", shapes::sphere(10, 3));
  mechanism.addPart("shell", shapes::joined({shapes::sphere(16, 3), shapes::reversed(cavity)}));
  mechanism.addStep(mechanism.addBall(part, std::nullopt, kOrigin), {0.3, 0.5, -0.2});
  double facetMm = 0;
  for (std::size_t t = 0; t < cavity.triangles.size(); ++t) {
    const Vector3d middle = (cavity.corner(t, 0) + cavity.corner(t, 1) + cavity.corner(t, 2)) / 3;
    facetMm = std::max(facetMm, 12 - middle.norm());
  }
  const Limits limits = limitsOf(mechanism, part, kOrigin, growthTo());
  // Corners of the ball are on its sphere; the cavity's facets are inside theirs.
  const double scale = (12 - kGapMm) / 10;
  expectLimit(limits.scale, scale - facetMm / 10, scale + slackOf(10, 1), 0.02 / 10);
  expectLimit(limits.offset, 2 - kGapMm - facetMm, 2 - kGapMm, 0.02);
}

TEST(Growth, ThinPlateInTheWayIsNotJumpedOver) {
  // At scale 2 the block's face is far beyond the plate, and the plate is inside the block.
  Mechanism mechanism;
  const PartId part = mechanism.addPart("block", box({-10, -10, -10}, {10, 10, 10}));
  mechanism.addPart("plate", box({11, -2, -2}, {11.05, 2, 2}));
  mechanism.addStep(mechanism.addSlide(part, std::nullopt, kZ), {1, 0, 0});
  const Limits limits = limitsOf(mechanism, part, kOrigin, growthTo());
  const double scale = (11 - kGapMm) / 10;
  expectLimit(limits.scale, scale, scale + slackOf(10, 1), 0.02 / 10);
}

TEST(Growth, PartThatIsTooNearAlreadyHasNone) {
  // M-2.
  const Limits limits = limitsOf(growthByWall(49), PartId{0}, kOrigin, growthTo());
  EXPECT_TRUE(limits.scale.none);
  EXPECT_EQ(limits.scale.proven, 1);
  EXPECT_TRUE(limits.offset.none);
  EXPECT_EQ(limits.offset.proven, 0);
  ASSERT_TRUE(limits.scale.stop);
  EXPECT_EQ(limits.scale.stop->part, PartId{1});
}

TEST(Growth, NothingNearIsSaidUpToWhatWasAsked) {
  const Limits limits = limitsOf(growthByWall(500), PartId{0}, kOrigin, growthTo());
  EXPECT_TRUE(limits.scale.done);
  EXPECT_EQ(limits.scale.proven, 2);
  EXPECT_FALSE(limits.scale.broken);
  EXPECT_EQ(limits.offset.proven, 5);
  EXPECT_FALSE(limits.offset.broken);
}

TEST(Growth, ScaledPartPassesTheCheckAtWhatIsProvenAndFailsAtWhatIsBroken) {
  const Limits limits = limitsOf(growthByWall(52), PartId{0}, {10, 5, 0}, growthTo());
  const auto verdictAt = [](double scale) {
    Mechanism mechanism;
    TriangleMesh mesh = box({0, 0, 0}, {40, 30, 10});
    for (Vector3d& p : mesh.vertices) p = Vector3d(10, 5, 0) + scale * (p - Vector3d(10, 5, 0));
    const PartId part = mechanism.addPart("box", mesh);
    mechanism.addPart("wall", box({52, -80, -30}, {57, 80, 40}));
    mechanism.addStep(mechanism.addHinge(part, std::nullopt, kOrigin, kZ), deg(-90));
    return mechanism.checkFirstPair().verdict;
  };
  EXPECT_EQ(verdictAt(limits.scale.proven), Verdict::clear);
  EXPECT_EQ(verdictAt(*limits.scale.broken), Verdict::tight);
}

TEST(Growth, OneThreadAndFourSayTheSame) {
  GrowthSettings settings = growthTo();
  settings.pieceMm = 1;
  const Limits one = limitsOf(growthByWall(52), PartId{0}, {10, 5, 0}, settings);
  settings.threads = 4;
  const Limits four = limitsOf(growthByWall(52), PartId{0}, {10, 5, 0}, settings);
  EXPECT_EQ(one.scale, four.scale);
  EXPECT_EQ(one.offset, four.offset);
}

TEST(Growth, CancelIsHeard) {
  const Mechanism mechanism = growthByWall(52);
  const Assembly assembly = mechanism.assembly();
  const std::vector<Sequence> ways{mechanism.sequence()};
  const AssemblyGeometry geometry = prepareGeometry(assembly, 1);
  WorkMonitor monitor;
  monitor.cancel();
  EXPECT_FALSE(scaleLimit({assembly, ways, geometry, PartId{0}}, kOrigin, growthTo(), monitor).done);
  EXPECT_FALSE(offsetLimit({assembly, ways, geometry, PartId{0}}, growthTo(), monitor).done);
}

}  // namespace
}  // namespace swingroom
