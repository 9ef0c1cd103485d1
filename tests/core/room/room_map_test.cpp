// The room map against closed forms: check values M-1 to M-5 of the gap through a motion, for the whole
// surface, and the rules of zones, contacts, fixed joints and free steps.
#include "core/room/room_map.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "tests/support/mechanism.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

using shapes::box;

constexpr double kRequiredMm = 0.3;  // What Mechanism asks for unless it is told otherwise.

struct RoomRun {
  RoomMap map;
  std::vector<RoomMap> stages;
};

RoomRun roomOf(const Mechanism& mechanism, PartId part, const RoomSettings& settings) {
  const Assembly assembly = mechanism.assembly();
  const std::vector<Sequence> ways{mechanism.sequence()};
  const AssemblyGeometry geometry = prepareGeometry(assembly, 1);
  WorkMonitor monitor;
  RoomRun run;
  run.map = roomMap({assembly, ways, geometry, part}, settings, monitor,
                    [&](const RoomMap& stage) { run.stages.push_back(stage); });
  return run;
}

RoomSettings fine(double resolutionMm = 0.02) {
  RoomSettings settings;
  settings.resolutionMm = resolutionMm;
  settings.threads = 1;
  return settings;
}

/// By a piece's corners: its least room if nothing were capped.
using LeastRoom = std::function<double(const RoomPlace&)>;

/// Every place's bracket holds the closed form and is as narrow as asked.
void expectRoom(const RoomMap& map, const LeastRoom& leastRoom, double toleranceMm) {
  ASSERT_FALSE(map.places.empty());
  EXPECT_TRUE(map.done);
  std::size_t below = 0;
  for (const RoomPlace& place : map.places) {
    const double trueMm = leastRoom(place);
    SCOPED_TRACE(::testing::Message() << "piece about " << place.corners_P[0].transpose() << ", room " << trueMm);
    if (trueMm < -toleranceMm) {
      EXPECT_EQ(place.state, RoomState::none);
      EXPECT_EQ(place.lowerMm, 0);
      continue;
    }
    EXPECT_LE(place.lowerMm, std::max(0.0, trueMm) + toleranceMm) << "painted with more room than there is";
    EXPECT_GE(place.upperMm, std::min(trueMm, map.capMm) - toleranceMm);
    EXPECT_LE(place.upperMm - place.lowerMm, map.resolutionMm + 1e-9);
    if (trueMm < map.capMm - map.resolutionMm - toleranceMm) {
      ++below;
      EXPECT_NE(place.state, RoomState::capped);
    }
    if (::testing::Test::HasFailure()) return;
  }
  EXPECT_GT(below, 0u) << "the whole field is capped: nothing was tried";
}

/// Distance from the z axis of the piece's farthest point, which is a corner.
double farthestFromZ(const RoomPlace& place) {
  double farthest = 0;
  for (const Vector3d& corner : place.corners_P) farthest = std::max(farthest, corner.head<2>().norm());
  return farthest;
}

const RoomPlace& leastPlace(const RoomMap& map) {
  return *std::min_element(map.places.begin(), map.places.end(),
                           [](const RoomPlace& a, const RoomPlace& b) { return a.upperMm < b.upperMm; });
}

/// M-1, M-2: 40 x 30, pivot at its corner, turned 0 to -90 degrees by a wall at x = `wall`. Every point's
/// arc passes y = 0, so it comes as near to the wall as its distance from the pivot says.
Mechanism boxByWall(double wall) {
  Mechanism mechanism;
  const PartId part = mechanism.addPart("box", box({0, 0, 0}, {40, 30, 10}));
  mechanism.addPart("wall", box({wall, -80, -30}, {wall + 5, 80, 40}));
  mechanism.addStep(mechanism.addHinge(part, std::nullopt, kOrigin, kZ), deg(-90));
  return mechanism;
}

TEST(RoomMap, BoxByAWallHasTheRoomThatItsArcsLeave) {
  const RoomRun run = roomOf(boxByWall(52), PartId{0}, fine());
  expectRoom(run.map, [](const RoomPlace& place) { return 52 - farthestFromZ(place) - kRequiredMm; }, 1e-6);
  // M-1: the gap is 2 at -36.8698976 degrees, which neither end shows.
  const RoomPlace& least = leastPlace(run.map);
  EXPECT_NEAR(least.lowerMm, 2 - kRequiredMm, 0.02);
  ASSERT_TRUE(least.stop);
  EXPECT_EQ(least.stop->part, PartId{1});
  // Anywhere within 0.02 of the least gap: corner radius 50, 50 (1 - cos) = 0.02 at 1.62 degrees.
  EXPECT_NEAR(least.stop->instant * 90, 36.8698976, 1.7);
}

TEST(RoomMap, BoxThatMeetsTheWallHasNoRoomWhereItDoes) {
  // M-2: overlap of 1 at the corner.
  const RoomRun run = roomOf(boxByWall(49), PartId{0}, fine());
  expectRoom(run.map, [](const RoomPlace& place) { return 49 - farthestFromZ(place) - kRequiredMm; }, 1e-4);
  EXPECT_EQ(leastPlace(run.map).state, RoomState::none);
}

TEST(RoomMap, PartTurningInASlotHasTheRoomOfItsCircles) {
  // M-3: 40 x 20 about its centre in a slot 46 wide, half a turn: every point passes both walls.
  Mechanism mechanism;
  const PartId part = mechanism.addPart("rotor", box({-20, -10, 0}, {20, 10, 8}));
  mechanism.addPart("port wall", box({-60, 23, -10}, {60, 28, 20}));
  mechanism.addPart("starboard wall", box({-60, -28, -10}, {60, -23, 20}));
  mechanism.addStep(mechanism.addHinge(part, std::nullopt, kOrigin, kZ), deg(180));
  const RoomRun run = roomOf(mechanism, part, fine());
  expectRoom(run.map, [](const RoomPlace& place) { return 23 - farthestFromZ(place) - kRequiredMm; }, 1e-6);
  EXPECT_NEAR(leastPlace(run.map).upperMm, 0.6393202 - kRequiredMm, 0.02);
}

/// Least of `distance` over the piece, by a grid; `spacingMm` gains the farthest that a point is from the grid.
double leastOverPiece(const RoomPlace& place, const std::function<double(const Vector3d&)>& distance,
                      double& spacingMm) {
  constexpr int kSteps = 8;
  double least = std::numeric_limits<double>::infinity(), longest = 0;
  const auto& [a, b, c] = place.corners_P;
  for (int i = 0; i <= kSteps; ++i) {
    for (int j = 0; i + j <= kSteps; ++j) {
      least = std::min(least, distance(a + (b - a) * i / kSteps + (c - a) * j / kSteps));
    }
  }
  for (std::size_t k = 0; k < 3; ++k) {
    longest = std::max(longest, (place.corners_P[k] - place.corners_P[(k + 1) % 3]).norm());
  }
  spacingMm = std::max(spacingMm, longest / kSteps);
  return least;
}

/// As `expectRoom` for a field that is known point by point: never more than at any point; and, as it
/// changes by no more than the way, hardly less than at the nearest point of a grid.
void expectField(const RoomMap& map, const std::function<double(const Vector3d&)>& room, double facetMm) {
  std::size_t below = 0;
  for (const RoomPlace& place : map.places) {
    double spacingMm = 0;
    const double leastMm = leastOverPiece(place, room, spacingMm);
    SCOPED_TRACE(::testing::Message() << "piece about " << place.corners_P[0].transpose());
    EXPECT_LE(place.lowerMm, std::max(0.0, leastMm) + facetMm);
    EXPECT_GE(place.upperMm, std::min(leastMm, map.capMm) - spacingMm - facetMm);
    EXPECT_LE(place.upperMm - place.lowerMm, map.resolutionMm + 1e-9);
    if (leastMm < map.capMm - 1) ++below;
    if (::testing::Test::HasFailure()) return;
  }
  EXPECT_GT(below, 20u);
}

TEST(RoomMap, BarByAPostHasTheRoomOfItsLastPlace) {
  // M-4: a bar of half-thickness 2 turning up to a disc of radius 5 at (30, 30); contact at 35.5032545
  // degrees, so 30 degrees are free. All that is near is nearest at the end.
  constexpr int kSides = 256;
  Mechanism mechanism;
  const PartId bar = mechanism.addPart("bar", box({0, -2, 0}, {50, 2, 4}));
  mechanism.addPart("post", shapes::moved(shapes::cylinder(5, -10, 14, kSides), translation({30, 30, 0})));
  mechanism.addStep(mechanism.addHinge(bar, std::nullopt, kOrigin, kZ), deg(30));
  const RoomRun run = roomOf(mechanism, bar, fine());
  const Pose last = rotationAbout(kOrigin, kZ, radFromDeg(30));
  expectField(
      run.map,
      [&](const Vector3d& p) { return ((last * p).head<2>() - Eigen::Vector2d(30, 30)).norm() - 5 - kRequiredMm; },
      shapes::sagitta(5, kSides));
}

TEST(RoomMap, CapsuleByABallHasTheRoomOfItsArcs) {
  // M-5: axis 0 to 50, radius 3, ball of radius 4 at (30, 20, 5); contact from 25.8809491 degrees on.
  Mechanism mechanism;
  const PartId capsule = mechanism.addPart("capsule", shapes::capsule(3, 50, 24));
  const Vector3d centre(30, 20, 5);
  const TriangleMesh ball = shapes::moved(shapes::sphere(4, 4), translation(centre));
  mechanism.addPart("ball", ball);
  mechanism.addStep(mechanism.addHinge(capsule, std::nullopt, kOrigin, kZ), deg(24));
  double facetMm = 0;  // How far the facets are inside the ball.
  for (std::size_t t = 0; t < ball.triangles.size(); ++t) {
    const Vector3d middle = (ball.corner(t, 0) + ball.corner(t, 1) + ball.corner(t, 2)) / 3;
    facetMm = std::max(facetMm, 4 - (middle - centre).norm());
  }
  RoomSettings settings = fine();
  settings.pieceMm = 2;
  const RoomRun run = roomOf(mechanism, capsule, settings);
  const double toCentre = std::atan2(20.0, 30.0);
  expectField(
      run.map,
      [&](const Vector3d& p) {
        const double radius = p.head<2>().norm(), angle = std::atan2(p.y(), p.x());
        const double turn = std::clamp(toCentre - angle, 0.0, radFromDeg(24));
        const Vector3d nearest(radius * std::cos(angle + turn), radius * std::sin(angle + turn), p.z());
        return (nearest - centre).norm() - 4 - kRequiredMm;
      },
      facetMm + 1e-6);
}

TEST(RoomMap, BallInARoundCavityHasTheSameRoomEverywhere) {
  constexpr double kBallMm = 10, kCavityMm = 12;
  const TriangleMesh ball = shapes::sphere(kBallMm, 3), cavity = shapes::sphere(kCavityMm, 4);
  Mechanism mechanism;
  const PartId part = mechanism.addPart("ball", ball);
  mechanism.addPart("shell", shapes::joined({shapes::sphere(16, 3), shapes::reversed(cavity)}));
  mechanism.addStep(mechanism.addBall(part, std::nullopt, kOrigin), {0.3, 0.5, -0.2});
  // Facets are inside their spheres by so much at most: those of the cavity take it off, those of the ball add it.
  const auto facetOf = [](const TriangleMesh& mesh, double radius) {
    double facet = 0;
    for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
      const Vector3d middle = (mesh.corner(t, 0) + mesh.corner(t, 1) + mesh.corner(t, 2)) / 3;
      facet = std::max(facet, radius - middle.norm());
    }
    return facet;
  };
  const double wallMm = facetOf(cavity, kCavityMm);
  const RoomRun run = roomOf(mechanism, part, fine(0.01));
  // A piece's corners are on its sphere or, where its triangle was split, a facet's depth inside.
  const double constantMm = kCavityMm - kBallMm - kRequiredMm;
  for (const RoomPlace& place : run.map.places) {
    ASSERT_EQ(place.state, RoomState::room);
    EXPECT_GE(place.upperMm, constantMm - wallMm - 1e-9);
    EXPECT_LE(place.lowerMm, constantMm + facetOf(ball, kBallMm) + 1e-9);
    EXPECT_LE(place.upperMm - place.lowerMm, 0.01 + 1e-9);
  }
}

TEST(RoomMap, StagesGetFinerAndNeverContradictEachOther) {
  const RoomRun run = roomOf(boxByWall(52), PartId{0}, fine(0.05));
  ASSERT_GE(run.stages.size(), 3u);
  EXPECT_EQ(run.stages.back(), run.map);
  for (std::size_t s = 1; s < run.stages.size(); ++s) {
    EXPECT_LT(run.stages[s].resolutionMm, run.stages[s - 1].resolutionMm);
    EXPECT_EQ(run.stages[s].done, s + 1 == run.stages.size());
    for (std::size_t i = 0; i < run.map.places.size(); ++i) {
      EXPECT_LE(run.stages[s - 1].places[i].lowerMm, run.stages[s].places[i].upperMm + 1e-9);
      EXPECT_GE(run.stages[s].places[i].lowerMm, run.stages[s - 1].places[i].lowerMm);
    }
  }
}

TEST(RoomMap, OneThreadAndFourGiveTheSameBytes) {
  RoomSettings settings = fine(0.1);
  settings.pieceMm = 0.8;
  const RoomRun one = roomOf(boxByWall(52), PartId{0}, settings);
  settings.threads = 4;
  EXPECT_EQ(one.map, roomOf(boxByWall(52), PartId{0}, settings).map);
}

TEST(RoomMap, CancelReturnsTheLastWholeStage) {
  const Mechanism mechanism = boxByWall(52);
  const Assembly assembly = mechanism.assembly();
  const std::vector<Sequence> ways{mechanism.sequence()};
  const AssemblyGeometry geometry = prepareGeometry(assembly, 1);
  WorkMonitor monitor;
  std::vector<RoomMap> stages;
  const RoomMap map = roomMap({assembly, ways, geometry, PartId{0}}, fine(0.001), monitor, [&](const RoomMap& stage) {
    stages.push_back(stage);
    monitor.cancel();
  });
  ASSERT_EQ(stages.size(), 1u);
  EXPECT_EQ(map, stages.front());
  EXPECT_FALSE(map.done);
  WorkMonitor before;
  before.cancel();
  EXPECT_TRUE(roomMap({assembly, ways, geometry, PartId{0}}, fine(), before).places.empty());
}

TEST(RoomMap, EveryTriangleIsThereWithItsWholeArea) {
  const RoomMap map = roomOf(boxByWall(52), PartId{0}, fine(1)).map;
  const TriangleMesh mesh = box({0, 0, 0}, {40, 30, 10});
  std::vector<double> areas(mesh.triangles.size());
  for (const RoomPlace& place : map.places) {
    const auto& [a, b, c] = place.corners_P;
    areas[place.triangle] += 0.5 * (b - a).cross(c - a).norm();
  }
  for (std::size_t t = 0; t < areas.size(); ++t) {
    const Vector3d e = mesh.corner(t, 1) - mesh.corner(t, 0), f = mesh.corner(t, 2) - mesh.corner(t, 0);
    EXPECT_NEAR(areas[t], 0.5 * e.cross(f).norm(), 1e-9);
  }
}

TEST(RoomMap, StepOfAnyOrderCountsWithEveryCombination) {
  // Along and up at once the block passes above the post; along first, it stops 1.5 before it.
  Mechanism mechanism;
  const PartId carriage = mechanism.addPart("carriage", box({0, 0, -20}, {1, 1, -19}));
  const PartId block = mechanism.addPart("block", box({0, 0, 0}, {1, 1, 1}));
  mechanism.addPart("post", box({12.5, -1, -1}, {13.5, 2, 2}));
  const JointId along = mechanism.addSlide(carriage, std::nullopt, Vector3d::UnitX());
  const JointId up = mechanism.addSlide(block, carriage, Vector3d::UnitY());
  const std::vector<std::pair<JointId, JointValue>> moves{{along, {10, 0, 0}}, {up, {10, 0, 0}}};
  Mechanism free = mechanism;
  mechanism.addStep(moves);
  free.addStep(moves, StepOrder::free);
  EXPECT_GT(leastPlace(roomOf(mechanism, block, fine(0.05)).map).lowerMm, 3);
  const RoomMap map = roomOf(free, block, fine(0.05)).map;
  EXPECT_NEAR(leastPlace(map).lowerMm, 1.5 - kRequiredMm, 0.05 + 1e-9);
  // From each piece the way to the post's face is what its farthest corner leaves.
  for (const RoomPlace& place : map.places) {
    double farthest = 0;
    for (const Vector3d& corner : place.corners_P) farthest = std::max(farthest, corner.x());
    EXPECT_LE(place.lowerMm, 2.5 - farthest - kRequiredMm + 1e-6);
  }
}

TEST(RoomMap, JointZonesAreLeftOutAndTheirOthersRimMustOnlyNotTouch) {
  // A pin of radius 2 in an eye of bore 2.2; without a zone nothing of the pin has room.
  Mechanism mechanism;
  const PartId eye = mechanism.addPart("eye", shapes::tube(6, 2.2, -5, 5, 48));
  const PartId pin = mechanism.addPart("pin", shapes::cylinder(2, -12, 12, 48));
  mechanism.addStep(mechanism.addHinge(pin, eye, kOrigin, kZ), deg(90));
  EXPECT_EQ(leastPlace(roomOf(mechanism, pin, fine(0.05)).map).state, RoomState::none);
  mechanism.joint(JointId{0}).zones.push_back({2.7, -5.5, 5.5});
  const RoomMap map = roomOf(mechanism, pin, fine(0.05)).map;
  double nearest = map.capMm;
  for (const RoomPlace& place : map.places) {
    const Vector3d middle = (place.corners_P[0] + place.corners_P[1] + place.corners_P[2]) / 3;
    EXPECT_EQ(place.state == RoomState::zone, std::abs(middle.z()) < 5.5) << middle.transpose();
    EXPECT_NE(place.state, RoomState::none);
    if (place.state == RoomState::zone) continue;
    // At the zone's end the bore's rim is 0.2 aside and 0.5 below (it must not be touched), the eye's face
    // outside the zone 0.7 aside and 0.5 below (0.3 is required); the facets of 48 sides differ by 0.005.
    EXPECT_GE(place.upperMm, std::hypot(0.2, 0.5) - 0.01);
    nearest = std::min(nearest, place.lowerMm);
  }
  EXPECT_LE(nearest, std::hypot(0.2, 0.5) + 0.01);
}

TEST(RoomMap, FixedAndAllowedPartsAreNoObstacles) {
  Mechanism mechanism;
  const PartId block = mechanism.addPart("block", box({0, 0, 0}, {10, 10, 10}));
  const PartId glued = mechanism.addPart("glued", box({10, 2, 2}, {14, 8, 8}));
  const PartId allowed = mechanism.addPart("allowed", box({0, 10.1, 0}, {10, 14, 10}));
  mechanism.addFixed(glued, block);
  mechanism.parts().pairRules.push_back({block, allowed, std::nullopt, {}, "soft"});
  mechanism.addStep(mechanism.addHinge(block, std::nullopt, kOrigin, kZ), deg(5));
  const RoomMap map = roomOf(mechanism, block, fine()).map;
  std::size_t touched = 0;
  for (const RoomPlace& place : map.places) {
    if (place.state == RoomState::contact) {
      ++touched;
      for (const Vector3d& corner : place.corners_P) EXPECT_GT(corner.x(), 9);
    } else {
      EXPECT_EQ(place.state, RoomState::capped);
    }
  }
  EXPECT_GT(touched, 10u);
}

TEST(RoomMap, SoleThatRestsIsAContactAndTheSidesHaveTheirHeight) {
  // It stands on the floor in the first mode and is lifted by 30.
  Mechanism mechanism;
  const PartId foot = mechanism.addPart("foot", box({0, 0, 0}, {10, 10, 10}));
  const PartId floor = mechanism.addPart("floor", box({-20, -20, -5}, {30, 30, 0}));
  Contact rest;
  rest.modes = {ModeId{0}};
  mechanism.parts().pairRules.push_back({foot, floor, std::nullopt, {rest}, std::nullopt});
  mechanism.addStep(mechanism.addSlide(foot, std::nullopt, kZ), {30, 0, 0});
  const RoomMap map = roomOf(mechanism, foot, fine()).map;
  for (const RoomPlace& place : map.places) {
    double low = 20;
    for (const Vector3d& corner : place.corners_P) low = std::min(low, corner.z());
    if (low < kRequiredMm - 1e-6) {
      EXPECT_EQ(place.state, RoomState::contact);
      continue;
    }
    // Where the contact ends the sole is 0.3 above the floor (to 1e-4 of 30 mm), the place `low` more.
    EXPECT_LE(place.lowerMm, std::min(low, map.capMm) + 0.003);
    EXPECT_GE(place.upperMm, std::min(low, map.capMm) - 0.003);
  }
}

TEST(RoomMap, WhatIsInsideAnotherPartHasNoRoom) {
  Mechanism mechanism;
  const PartId pearl = mechanism.addPart("pearl", shapes::sphere(1, 2));
  mechanism.addPart("block", box({-10, -10, -10}, {10, 10, 10}));
  mechanism.addStep(mechanism.addSlide(pearl, std::nullopt, kZ), {2, 0, 0});
  for (const RoomPlace& place : roomOf(mechanism, pearl, fine()).map.places) {
    EXPECT_EQ(place.state, RoomState::none);
  }
}

}  // namespace
}  // namespace swingroom
