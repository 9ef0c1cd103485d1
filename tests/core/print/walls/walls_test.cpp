// Thickness of solids whose walls are known. Status of all: closed form.
#include "tests/core/print/walls/wall_shapes.h"

namespace swingroom {
namespace {

/// All that is thin is `mm`, to `within`.
void expectLeast(const WallMap& map, double mm, double within) {
  if (!map.judged || map.spots.empty()) throw std::runtime_error("no walls: " + map.whyNot);
  EXPECT_NEAR(*map.leastUpperMm, mm, within);
  EXPECT_LE(*map.leastLowerMm, *map.leastUpperMm);
  for (const WallPlace& place : map.places) EXPECT_LE(place.lowerMm, place.upperMm);
}

double areaIn(const WallMap& map) {
  double areaMm2 = 0;
  for (const WallPlace& place : map.places) {
    const auto& t = place.corners_P;
    areaMm2 += (t[1] - t[0]).cross(t[2] - t[0]).norm() / 2;
  }
  return areaMm2;
}

// Check values G-7: a hollow cube of 20 with walls of 2 (the inner shell looks inwards).
TEST(Walls, AHollowCubeHasItsWallsEverywhere) {
  const TriangleMesh cube =
      shapes::joined({shapes::box({-10, -10, -10}, {10, 10, 10}),
                      shapes::reversed(shapes::box({-8, -8, -8}, {8, 8, 8}))});
  const WallMap map = wallsIn(cube);
  expectLeast(map, 2, 1e-6);
  EXPECT_NEAR(*map.leastLowerMm, 2, 1e-5);
  EXPECT_NEAR(areaIn(map), 6 * (400 + 256), 1e-6);
  ASSERT_FALSE(map.spots.empty());
  EXPECT_FALSE(map.spots[0].free);
  EXPECT_EQ(map.spots[0].kind, WallKind::wall);
  // In the middle of a wall.
  const Vector3d at = map.spots[0].at_P.cwiseAbs();
  EXPECT_NEAR(at.maxCoeff(), 9, 1e-6);
  // A face's place away from its rim by more than a wall is 2 thick: all of the inner faces are.
  for (const WallPlace& place : map.places) {
    const Vector3d middle = (place.corners_P[0] + place.corners_P[1] + place.corners_P[2]) / 3;
    if (middle.cwiseAbs().maxCoeff() > 8 + 1e-9) continue;
    EXPECT_NEAR(place.upperMm, 2, 1e-6);
    EXPECT_EQ(place.kind, WallKind::wall);
  }
}

// A box of 20 x 30 x 2.5 is a plate of 2.5; beside its square edges nothing is thinner.
TEST(Walls, BesideASquareEdgeNothingIsThin) {
  std::mt19937_64 random(7);
  for (int turn = 0; turn < 3; ++turn) {
    const Pose X = turn == 0 ? Pose::Identity() : shapes::randomPose(random, 50);
    const WallMap map = wallsIn(shapes::moved(shapes::box({0, 0, 0}, {20, 30, 2.5}), X));
    expectLeast(map, 2.5, 1e-6);
    for (const WallPlace& place : map.places) EXPECT_GE(place.upperMm, 2.5 - 1e-6);
    EXPECT_EQ(map.spots.size(), 1u);
    EXPECT_TRUE(map.spots[0].free);
    EXPECT_NEAR(map.spots[0].areaMm2, 1200, 1e-6);
    EXPECT_NEAR((X.inverse() * map.spots[0].at_P).z(), 1.25, 1e-3);
    EXPECT_TRUE(map.blades.empty());
  }
}

// A wedge of 20 degrees: at x from its edge the ball is 2 x tan(10 deg).
TEST(Walls, AWedgeIsAsThickAsItsDistanceFromTheEdgeSays) {
  const double tanHalf = std::tan(10 * kPi / 180), length = 30;
  const TriangleMesh wedge = shapes::moved(
      shapes::prism({{0, 0}, {length, -length * tanHalf}, {length, length * tanHalf}}, 0, 25),
      translation({3, -4, 5}));
  const WallMap map = wallsIn(wedge);
  ASSERT_TRUE(map.judged);
  std::size_t compared = 0;
  for (const WallPlace& place : map.places) {
    if (place.kind == WallKind::none || place.upperMm >= map.mostMm) continue;
    const Vector3d at = place.at_P - Vector3d(3, -4, 5);
    if (at.x() > length - 1) continue;  // The back is a face of its own.
    // Distance along the face from the edge.
    const double fromEdge = std::hypot(at.x(), at.y());
    EXPECT_NEAR(place.upperMm, 2 * fromEdge * tanHalf, 1e-3 + 1e-3 * fromEdge);
    ++compared;
  }
  EXPECT_GT(compared, 200u);
  // It tapers faster than 1 in 3: an edge of 25 mm, no wall that is thin.
  ASSERT_EQ(map.blades.size(), 1u);
  EXPECT_NEAR(map.blades[0].lengthMm, 25, 1e-9);
  EXPECT_NEAR(map.blades[0].openingRad, 20 * kPi / 180, 1e-9);
  EXPECT_TRUE(map.spots.empty() || map.spots[0].upperMm > 3);
}

// A blade: a plate of 0.6 that is ground to an edge of 45 degrees. Its edge is one, and it is thin.
TEST(Walls, APlateThatIsThinIsFoundThoughItEndsInAnEdge) {
  const TriangleMesh plate =
      shapes::prism({{26, 0}, {26, 6}, {20, 6}, {20, 0.6}, {0.6, 0.6}, {0, 0}}, 0, 30);
  const WallMap map = wallsIn(plate);
  expectLeast(map, 0.6, 1e-6);
  ASSERT_EQ(map.blades.size(), 1u);
  EXPECT_NEAR(map.blades[0].lengthMm, 30, 1e-9);
  EXPECT_NEAR(map.blades[0].openingRad, kPi / 4, 1e-9);
  EXPECT_TRUE(map.spots[0].free);
}

TEST(Walls, ASphereIsAsThickAsItIsWide) {
  for (const int splits : {3, 4}) {
    const WallMap map = wallsIn(shapes::sphere(2, splits));
    ASSERT_TRUE(map.judged);
    for (const WallPlace& place : map.places) {
      EXPECT_LE(place.upperMm, 4 + 1e-9);
      EXPECT_GE(place.upperMm, splits == 3 ? 3.9 : 3.97);
    }
  }
}

// A torus is as thick as its tube, and a neck all round: thin in two directions.
TEST(Walls, ATorusIsAsThickAsItsTube) {
  const WallMap coarse = wallsIn(shapes::torus(12, 1.5, 48, 24));
  const WallMap fine = wallsIn(shapes::torus(12, 1.5, 96, 48));
  expectLeast(coarse, 3, 0.06);
  expectLeast(fine, 3, 0.015);
  EXPECT_EQ(fine.spots[0].kind, WallKind::neck);
  EXPECT_EQ(coarse.spots[0].kind, WallKind::neck);
  EXPECT_NEAR(fine.spots[0].acrossMm, 3, 0.15);
}

TEST(Walls, ATubeIsAsThickAsItsWall) {
  std::mt19937_64 random(11);
  const WallMap map =
      wallsIn(shapes::moved(shapes::tube(10, 9, 0, 25, 96), shapes::randomPose(random, 20)));
  // Facets of the hole stand in: the wall is thinner by no more than the larger sagitta.
  expectLeast(map, 1, shapes::sagitta(10, 96) + 1e-6);
  EXPECT_EQ(map.spots[0].kind, WallKind::wall);
}

// A hexagon tube: flats 2 apart (outer 10 and inner 8 across corners times cos 30).
TEST(Walls, AHexagonTubeHasTheWallOfItsFlats) {
  const WallMap map = wallsIn(shapes::tube(10, 8, 0, 20, 6));
  expectLeast(map, 2 * std::cos(kPi / 6), 1e-6);
}

TEST(Walls, ARoundBarIsANeckAndAPin) {
  for (const int sides : {24, 96}) {
    const WallMap map = wallsIn(shapes::cylinder(1.25, 0, 12, sides));
    expectLeast(map, 2.5, 2 * shapes::sagitta(1.25, sides) + 2e-3);
    EXPECT_EQ(map.spots[0].kind, WallKind::neck);
    ASSERT_EQ(map.pins.size(), 1u);
    EXPECT_NEAR(map.pins[0].diameterMm, 2.5, 1e-6);
    EXPECT_NEAR(map.pins[0].lengthMm, 12, 1e-6);
    EXPECT_NEAR(map.pins[0].middle_P.z(), 6, 1e-6);
  }
}

// A plate of 3 with a step down to 1.2.
TEST(Walls, APlateWithAStepHasBothThicknesses) {
  const WallMap map =
      wallsIn(cellSolid(without(allCells({0, 10, 22}, {0, 20}, {0, 1.2, 3}), {{1, 0, 1}})));
  expectLeast(map, 1.2, 1e-6);
  for (const WallPlace& place : map.places) {
    const Vector3d middle = (place.corners_P[0] + place.corners_P[1] + place.corners_P[2]) / 3;
    if (place.corners_P[0].z() != 3 || place.corners_P[1].z() != 3 || place.corners_P[2].z() != 3)
      continue;
    EXPECT_NEAR(place.upperMm, 3, 1e-6) << middle.transpose();
  }
}

// A fin of 0.6, 5 high, on a block: held along one side.
TEST(Walls, AFinIsFree) {
  std::mt19937_64 random(13);
  const TriangleMesh fin =
      cellSolid(without(allCells({0, 4, 4.6, 12}, {0, 15}, {0, 6, 11}), {{0, 0, 1}, {2, 0, 1}}));
  const WallMap map = wallsIn(shapes::moved(fin, shapes::randomPose(random, 30)));
  expectLeast(map, 0.6, 1e-6);
  EXPECT_NEAR(*map.leastLowerMm, 0.6, 1e-5);
  EXPECT_TRUE(map.spots[0].free);
  EXPECT_EQ(map.spots[0].kind, WallKind::wall);
  EXPECT_NEAR(map.spots[0].areaMm2, 2 * 75, 2 * 75 * 0.2);
}

// A membrane of 0.6 in a frame of 4: held all round. Flush with it on one side, and in its middle.
TEST(Walls, AMembraneIsHeld) {
  for (const double low : {0.0, 1.7}) {
    std::vector<double> z{0, low, low + 0.6, 4};
    if (low == 0) z.erase(z.begin());
    WallBlocks frame = allCells({0, 3, 15, 18}, {0, 3, 15, 18}, z);
    std::erase_if(frame.filled, [&](const auto& cell) {
      return cell[0] == 1 && cell[1] == 1 && cell[2] != (low == 0 ? 0u : 1u);
    });
    const WallMap map = wallsIn(cellSolid(frame));
    expectLeast(map, 0.6, 1e-6);
    EXPECT_FALSE(map.spots[0].free);
    EXPECT_EQ(map.spots[0].kind, WallKind::wall);
    EXPECT_NEAR(map.spots[0].areaMm2, 2 * 144, 0.2 * 288);
  }
}

// A dumbbell: balls of 8 joined by a bar of 2 that is 3 long. Its neck is 2 by 2.
TEST(Walls, ADumbbellHasANeck) {
  std::vector<Eigen::Vector2d> profile{{0, -1.5}};
  const double z0 = std::sqrt(16.0 - 1);
  for (int i = 0; i <= 40; ++i) {
    const double angle = -kPi / 2 + (kPi - std::asin(1.0 / 4)) * i / 40;
    profile.push_back({i == 0 ? 0 : 4 * std::cos(angle), -1.5 - z0 + 4 * std::sin(angle)});
  }
  profile.erase(profile.begin());
  const std::size_t half = profile.size();
  for (std::size_t i = half; i-- > 0;) profile.push_back({profile[i].x(), -profile[i].y()});
  const WallMap map = wallsIn(turned(profile, 64));
  expectLeast(map, 2, 2 * shapes::sagitta(1, 64) + 5e-3);
  EXPECT_EQ(map.spots[0].kind, WallKind::neck);
  EXPECT_NEAR(map.spots[0].acrossMm, 2, 0.1);
  EXPECT_NEAR(map.spots[0].at_P.norm(), 0, 1.6);
  EXPECT_FALSE(map.spots[0].free);
}

// Two grooves of 90 degrees leave 0.4 between their bottoms: no face is thin, the bottoms are.
TEST(Walls, GroovesThatReachTowardsEachOtherLeaveALivingHinge) {
  const double d = 1.3;
  const WallMap map = wallsIn(shapes::prism({{0, 0.2},
                                             {-d, 0.2 + d},
                                             {-8, 0.2 + d},
                                             {-8, 0},
                                             {-8, -0.2 - d},
                                             {-d, -0.2 - d},
                                             {0, -0.2},
                                             {d, -0.2 - d},
                                             {8, -0.2 - d},
                                             {8, 0},
                                             {8, 0.2 + d},
                                             {d, 0.2 + d}},
                                            0, 12));
  expectLeast(map, 0.4, 1e-6);
  EXPECT_NEAR(map.spots[0].at_P.x(), 0, 1e-3);
  EXPECT_FALSE(map.spots[0].free);
}

// A ridge 0.5 wide and 0.3 high on a block is a relief; one of 2 is a wall.
TEST(Walls, ALowRidgeIsNoWall) {
  for (const double high : {0.3, 2.0}) {
    const WallMap map = wallsIn(cellSolid(
        without(allCells({0, 4, 4.5, 12}, {0, 15}, {0, 8, 8 + high}), {{0, 0, 1}, {2, 0, 1}})));
    ASSERT_TRUE(map.judged);
    const bool thin = !map.spots.empty() && map.spots[0].upperMm < 0.6;
    EXPECT_EQ(thin, high > 1) << high;
  }
}

// A pin that reaches 2 mm into a block, as a shell of its own: what is inside is no surface.
TEST(Walls, WhatOtherShellsHideIsNoSurface) {
  const TriangleMesh block = shapes::box({0, 0, 0}, {20, 20, 10});
  const TriangleMesh stud = shapes::moved(shapes::cylinder(2, 0, 12, 48), translation({10, 10, 8}));
  const WallMap map = wallsIn(shapes::joined({block, stud}));
  ASSERT_TRUE(map.judged);
  for (const WallPlace& place : map.places) {
    const Vector3d middle = (place.corners_P[0] + place.corners_P[1] + place.corners_P[2]) / 3;
    const double fromAxis = std::hypot(middle.x() - 10, middle.y() - 10);
    if (fromAxis < 1.8) {
      EXPECT_TRUE(middle.z() < 1e-9 || middle.z() > 19.9) << middle.transpose();
    }
  }
  // The stud is 4 thick, the block under it more than 6; nothing is 2.
  ASSERT_TRUE(map.leastUpperMm);
  EXPECT_NEAR(*map.leastUpperMm, 4, 0.05);
}

TEST(Walls, AnOpenOrTurnedMeshIsNotJudged) {
  TriangleMesh open = shapes::box({0, 0, 0}, {5, 5, 1});
  open.triangles.pop_back();
  EXPECT_FALSE(wallsIn(open).judged);
  EXPECT_NE(wallsIn(open).whyNot, "");
  EXPECT_FALSE(wallsIn(shapes::reversed(shapes::box({0, 0, 0}, {5, 5, 1}))).judged);
  EXPECT_FALSE(wallsIn({}).judged);
}

TEST(Walls, TheSameBytesOnOneThreadAndThree) {
  ThicknessSettings one, three;
  one.threads = 1;
  three.threads = 3;
  const TriangleMesh mesh = shapes::torus(9, 1.2, 40, 20);
  EXPECT_EQ(wallsIn(mesh, one), wallsIn(mesh, three));
}

TEST(Walls, ACancelIsHeard) {
  WorkMonitor monitor;
  monitor.cancel();
  const WallMap map = wallsOf(shapes::torus(9, 1.2, 40, 20), {}, monitor);
  EXPECT_FALSE(map.judged);
}

// The lower figure holds at every point: dense samples by straight rays of a wedge's wall.
TEST(Walls, FineAndCoarseFacetsAgree) {
  const double thick = 0.9;
  const auto shell = [&](int splits) {
    return shapes::joined(
        {shapes::sphere(8, splits), shapes::reversed(shapes::sphere(8 - thick, splits))});
  };
  const WallMap coarse = wallsIn(shell(3)), fine = wallsIn(shell(4));
  expectLeast(coarse, thick, 0.05);
  expectLeast(fine, thick, 0.015);
}

}  // namespace
}  // namespace swingroom
