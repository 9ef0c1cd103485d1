#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "app/viewport/camera_moves.h"

namespace swingroom {
namespace {

using Eigen::Vector2d;

constexpr double kExact = 1e-9;  ///< Rounding of a few operations on numbers below 1000.

const ViewSize kSize{800, 600};

ViewCamera someCamera(std::mt19937_64& random, bool perspective) {
  std::uniform_real_distribution<double> number(-1, 1);
  ViewCamera camera =
      uprightCamera(Vector3d(0.2, 0.1, 1), Vector3d(number(random), number(random), 0.3));
  camera.p_WTarget = 40 * Vector3d(number(random), number(random), number(random));
  camera.yawRad = 3 * number(random), camera.pitchRad = 1.2 * number(random);
  camera.spanMm = 120 + 60 * number(random);
  camera.perspective = perspective;
  return camera;
}

/// A point in the picture, before the eye.
Vector3d somePoint(std::mt19937_64& random, const ViewCamera& camera) {
  std::uniform_real_distribution<double> place(100, 500), share(0.7, 1.3);
  return ViewProjection(camera, kSize)
      .pointAt({place(random), place(random)}, share(random) * camera.distanceMm());
}

// The pinhole camera: a height h at depth d is seen h f / d high, f the distance of a picture whose
// smaller side spans the view's angle.
TEST(ViewCamera, PerspectiveIsThePinhole) {
  ViewCamera camera;  // Up z, front x: from in front, y is to the right.
  const double f = 300 / std::tan(kViewAngleRad / 2);
  const double eye = camera.spanMm / 2 / std::tan(kViewAngleRad / 2);
  const Vector2d seen = ViewProjection(camera, kSize).pixel({50, 20, 10});
  EXPECT_NEAR(seen.x(), 400 + 20 * f / (eye - 50), kExact);
  EXPECT_NEAR(seen.y(), 300 - 10 * f / (eye - 50), kExact);
}

TEST(ViewCamera, ParallelViewHasOneScale) {
  ViewCamera camera;
  camera.perspective = false, camera.spanMm = 120;  // 600 pixels: 5 a mm.
  for (const double depth : {-50.0, 0.0, 80.0}) {
    const Vector2d seen = ViewProjection(camera, kSize).pixel({depth, 20, 10});
    EXPECT_NEAR(seen.x(), 500, kExact);
    EXPECT_NEAR(seen.y(), 250, kExact);
  }
}

TEST(ViewCamera, FromTheRightTheFrontIsAtTheRightOfThePicture) {
  ViewCamera camera;
  camera.yawRad = kPi / 2;
  EXPECT_LT((camera.eye_W() - camera.distanceMm() * Vector3d(0, -1, 0)).norm(),
            kExact);  // Front x, up z: right -y.
  EXPECT_GT(ViewProjection(camera, kSize).pixel({10, 0, 0}).x(), 400);
}

// OpenGL 3.3 core specification, 2.13: window x = (x/w + 1) width / 2, y upwards, depth -1 to 1.
TEST(ViewCamera, ClipCoordinatesGiveTheSamePixels) {
  std::mt19937_64 random(1);
  for (int i = 0; i < 200; ++i) {
    const ViewCamera camera = someCamera(random, i % 2 == 0);
    const ViewProjection view(camera, kSize);
    const Vector3d p = somePoint(random, camera);
    const DepthRange range = view.rangeOf(camera.p_WTarget, 100);
    const Eigen::Vector4d clip = view.clipFromWorld(range) * p.homogeneous();
    EXPECT_NEAR((clip.x() / clip.w() + 1) * 400, view.pixel(p).x(), 1e-7);
    EXPECT_NEAR((1 - clip.y() / clip.w()) * 300, view.pixel(p).y(), 1e-7);
    const auto depthOf = [&](double depthMm) {
      const Eigen::Vector4d c = view.clipFromView(range) * Eigen::Vector4d(0, 0, depthMm, 1);
      return c.z() / c.w();
    };
    EXPECT_NEAR(depthOf(range.nearMm), -1, 1e-9);
    EXPECT_NEAR(depthOf(range.farMm), 1, 1e-9);
  }
}

TEST(ViewCamera, RayThroughAPixelMeetsWhatIsSeenThere) {
  std::mt19937_64 random(2);
  for (int i = 0; i < 200; ++i) {
    const ViewCamera camera = someCamera(random, i % 2 == 0);
    const Vector3d p = somePoint(random, camera);
    const ViewRay ray = ViewProjection(camera, kSize).rayAt(ViewProjection(camera, kSize).pixel(p));
    EXPECT_LT((p - ray.origin_W).cross(ray.direction_W).norm(), 1e-8);
  }
}

TEST(CameraMoves, WhatIsUnderTheCursorStaysThere) {
  std::mt19937_64 random(3);
  std::uniform_real_distribution<double> turn(-0.4, 0.4), factor(0.5, 2), place(50, 550);
  for (int i = 0; i < 300; ++i) {
    const ViewCamera camera = someCamera(random, i % 2 == 0);
    const Vector3d p = somePoint(random, camera);
    const Vector2d before = ViewProjection(camera, kSize).pixel(p),
                   goal(place(random), place(random));
    const auto pixel = [&](const ViewCamera& moved) {
      return ViewProjection(moved, kSize).pixel(p);
    };
    EXPECT_LT((pixel(orbited(camera, p, turn(random), turn(random))) - before).norm(), 1e-7);
    EXPECT_LT((pixel(zoomed(camera, p, factor(random))) - before).norm(), 1e-7);
    EXPECT_LT((pixel(panned(camera, kSize, p, before, goal)) - goal).norm(), 1e-7);
  }
}

TEST(CameraMoves, TheHorizonNeverTilts) {
  std::mt19937_64 random(4);
  std::uniform_real_distribution<double> turn(-2, 2);
  ViewCamera camera = someCamera(random, true);
  for (int i = 0; i < 200; ++i) {
    camera = orbited(camera, somePoint(random, camera), turn(random), turn(random));
    EXPECT_NEAR(camera.right_W().dot(camera.up_W), 0, kExact);
    EXPECT_GE(camera.upward_W().dot(camera.up_W), -kExact);  // Nor does it stand on its head.
  }
}

TEST(CameraMoves, FittedPointsFillThePictureUpToTheMargin) {
  std::mt19937_64 random(6);
  std::uniform_real_distribution<double> number(-70, 70);
  for (int i = 0; i < 100; ++i) {
    std::vector<Vector3d> points(40);
    for (Vector3d& p : points) p = Vector3d(number(random), number(random), 0.4 * number(random));
    const ViewCamera camera = fitted(someCamera(random, i % 2 == 0), kSize, points, 0.07);
    const double margin = 0.07 * 600;
    double least = 1e9;
    for (const Vector3d& p : points) {
      ASSERT_TRUE(ViewProjection(camera, kSize).isBefore(p));
      const Vector2d seen = ViewProjection(camera, kSize).pixel(p);
      least = std::min({least, seen.x(), 800 - seen.x(), seen.y(), 600 - seen.y()});
    }
    EXPECT_NEAR(least, margin, 1e-6);
  }
}

TEST(CameraMoves, ResizingKeepsTheMiddle) {
  std::mt19937_64 random(7);
  const ViewCamera camera = someCamera(random, true);
  const Vector2d seen = ViewProjection(camera, {1234, 567}).pixel(camera.p_WTarget);
  EXPECT_LT((seen - Vector2d(617, 283.5)).norm(), kExact);
}

TEST(CameraMoves, LooksAlongTheWayAskedFor) {
  std::mt19937_64 random(8);
  std::normal_distribution<double> number;
  for (int i = 0; i < 100; ++i) {
    const Vector3d way = Vector3d(number(random), number(random), number(random)).normalized();
    EXPECT_LT((lookingAlong(someCamera(random, true), way).towards_W() - way).norm(), 1e-9);
  }
}

TEST(CameraMoves, AMoveTurnsTheShortWayRound) {
  ViewCamera from, to;
  from.yawRad = radFromDeg(170), to.yawRad = radFromDeg(-170);
  EXPECT_NEAR(degFromRad(between(from, to, 0.5).yawRad), 180, kExact);
  EXPECT_EQ(between(from, to, 1), to);
}

}  // namespace
}  // namespace swingroom
