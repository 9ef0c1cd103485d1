// What FCL 0.7.0 does with meshes, as far as core/proximity relies on it or keeps away from it. A
// failure here after a change of version means: read core/proximity again, not: change the number.
// Behaviour that is undefined is not pinned: BVHModel<OBB> gives 1.8e308 with uninitialised points,
// and the nearest points of crossing surfaces mean nothing (issues 221, 491, 574 of FCL).
#include <fcl/geometry/bvh/BVH_model.h>
#include <fcl/geometry/shape/box.h>
#include <fcl/narrowphase/collision.h>
#include <fcl/narrowphase/distance.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <random>
#include <vector>

#include "core/base/parallel.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

// FCL's types change their layout with Eigen's alignment; the distribution's library has 16.
static_assert(EIGEN_MAX_ALIGN_BYTES == 16);

using Model = fcl::BVHModel<fcl::OBBRSSd>;

std::shared_ptr<const Model> modelOf(const TriangleMesh& mesh) {
  const auto model = std::make_shared<Model>();
  std::vector<fcl::Triangle> triangles;
  for (const auto& [a, b, c] : mesh.triangles) triangles.emplace_back(a, b, c);
  model->beginModel();
  model->addSubModel(mesh.vertices, triangles);
  model->endModel();
  return model;
}

TriangleMesh cube(double edge) {
  return shapes::box(Vector3d::Constant(-edge / 2), Vector3d::Constant(edge / 2));
}

double distanceOf(const fcl::CollisionGeometryd& a, const fcl::CollisionGeometryd& b,
                  const Pose& X_AB,
                  const fcl::DistanceRequestd& request = fcl::DistanceRequestd()) {
  fcl::DistanceResultd result;
  return fcl::distance(&a, fcl::Transform3d::Identity(), &b, X_AB, request, result);
}

std::size_t contactsOf(const Model& a, const Model& b, const Pose& X_AB, std::size_t most = 1) {
  fcl::CollisionRequestd request;
  request.num_max_contacts = most;
  fcl::CollisionResultd result;
  return fcl::collide(&a, fcl::Transform3d::Identity(), &b, X_AB, request, result);
}

/// check_values D-B1: at (2,0,0), turned 45 degrees about z; gap 1.5 - sqrt(2) / 2 (K).
Pose edgeOn() {
  return translation({2, 0, 0}) * rotationAbout(Vector3d::Zero(), {0, 0, 1}, radFromDeg(45));
}

/// check_values D-B2: at (2,0,0), a body diagonal along x; gap 1.5 - sqrt(3) / 2 (K).
Pose cornerOn() {
  Pose X = translation({2, 0, 0});
  X.linear() =
      Eigen::Quaterniond::FromTwoVectors(Vector3d(1, 1, 1), Vector3d(1, 0, 0)).toRotationMatrix();
  return X;
}

const double kEdgeOnGap = 1.5 - std::sqrt(2.0) / 2;
const double kCornerOnGap = 1.5 - std::sqrt(3.0) / 2;

TEST(FclContract, CrossingMeshesReportZeroNotNegative) {
  const auto a = modelOf(cube(2));
  fcl::DistanceRequestd isSigned;
  isSigned.enable_signed_distance = true;
  for (const double offset : {0.1, 0.5, 1.0, 1.9}) {
    const Pose X = translation({offset, 0.3, 0.2});
    EXPECT_EQ(distanceOf(*a, *a, X), 0) << "offset " << offset;
    EXPECT_EQ(distanceOf(*a, *a, X, isSigned), 0) << "offset " << offset;
  }
}

TEST(FclContract, TouchingMeshesReportZero) {
  const auto a = modelOf(cube(2));
  EXPECT_EQ(distanceOf(*a, *a, translation({2, 0, 0})), 0);
}

// Issue 492 of FCL. A cube of edge 1 in the middle of one of edge 10: the surfaces are 4.5 apart.
TEST(FclContract, PartWhollyInsideAnotherIsApartAndHasNoContact) {
  const auto outer = modelOf(cube(10)), inner = modelOf(cube(1));
  EXPECT_NEAR(distanceOf(*outer, *inner, Pose::Identity()), 4.5, 1e-12);
  EXPECT_EQ(contactsOf(*outer, *inner, Pose::Identity(), 100), 0u);
}

TEST(FclContract, MeshDistancesOfTurnedCubesAreRight) {
  const auto a = modelOf(cube(1));
  EXPECT_NEAR(distanceOf(*a, *a, edgeOn()), kEdgeOnGap, 1e-9);
  EXPECT_NEAR(distanceOf(*a, *a, cornerOn()), kCornerOnGap, 1e-9);
}

TEST(FclContract, NearestPointsOfMeshesAreInTheFirstOnesFrameIfItIsTheWorld) {
  const auto a = modelOf(cube(1));
  fcl::DistanceRequestd request(true);
  fcl::DistanceResultd result;
  fcl::distance(a.get(), fcl::Transform3d::Identity(), a.get(), cornerOn(), request, result);
  EXPECT_LT((result.nearest_points[0] - Vector3d(0.5, 0, 0)).norm(), 1e-9);
  EXPECT_LT((result.nearest_points[1] - Vector3d(2 - std::sqrt(3.0) / 2, 0, 0)).norm(), 1e-9);
}

// Issue 508 of FCL: 0.937 where 0.793 is true. Never use the default solver for primitives.
TEST(FclContract, DefaultSolverIsWrongForBoxPrimitives) {
  const fcl::Boxd box(1, 1, 1);
  EXPECT_EQ(fcl::DistanceRequestd().gjk_solver_type, fcl::GST_LIBCCD);
  EXPECT_NEAR(distanceOf(box, box, edgeOn()), 0.937379, 1e-6);
}

// 1e-6: the solver's own default tolerance.
TEST(FclContract, IndependentSolverIsRightForBoxPrimitives) {
  const fcl::Boxd box(1, 1, 1);
  fcl::DistanceRequestd request;
  request.gjk_solver_type = fcl::GST_INDEP;
  EXPECT_NEAR(distanceOf(box, box, edgeOn(), request), kEdgeOnGap, 1e-6);
  EXPECT_NEAR(distanceOf(box, box, cornerOn(), request), kCornerOnGap, 1e-6);
}

TEST(FclContract, NearestPointsAreOffByDefault) {
  EXPECT_FALSE(fcl::DistanceRequestd().enable_nearest_points);
}

TEST(FclContract, OneContactIsTheDefaultMost) {
  EXPECT_EQ(fcl::CollisionRequestd().num_max_contacts, 1u);
  const auto a = modelOf(shapes::sphere(10, 2));
  EXPECT_EQ(contactsOf(*a, *a, translation({10, 1, 2})), 1u);
  EXPECT_GT(contactsOf(*a, *a, translation({10, 1, 2}), 1000), 1u);
}

TEST(FclContract, ErrorThresholdsHaveNoEffectOnMeshes) {
  const auto a = modelOf(shapes::sphere(10, 3));
  fcl::DistanceRequestd lax;
  lax.rel_err = 0.5;
  lax.abs_err = 5;
  const Pose X = translation({21, 4, 3});
  EXPECT_EQ(distanceOf(*a, *a, X, lax), distanceOf(*a, *a, X));
}

// The plane gap of two cubes of edge 1, 3 apart centre to centre, is 2.
TEST(FclContract, SeededResultCapsTheQuery) {
  const auto a = modelOf(cube(1));
  for (const double seed : {0.5, 1.99, 2.01, 40.0}) {
    fcl::DistanceResultd result;
    result.min_distance = seed;
    fcl::distance(a.get(), fcl::Transform3d::Identity(), a.get(), Pose(translation({3, 0, 0})),
                  fcl::DistanceRequestd(), result);
    EXPECT_NEAR(result.min_distance, std::min(seed, 2.0), 1e-12) << "seed " << seed;
    EXPECT_EQ(result.o1 == nullptr, seed < 2) << "seed " << seed;
  }
}

TEST(FclContract, ThreadsSharingConstModelsGetTheAnswersOfOne) {
  constexpr unsigned kSeed = 7;
  constexpr std::size_t kCount = 400;
  const auto a = modelOf(shapes::torus(20, 6, 24, 12)), b = modelOf(shapes::capsule(4, 15, 16));
  std::mt19937_64 random(kSeed);
  std::vector<Pose> poses;
  for (std::size_t i = 0; i < kCount; ++i) poses.push_back(shapes::randomPose(random, 40));
  const auto ask = [&](unsigned threads) {
    std::vector<double> answers(2 * kCount);
    parallelFor(kCount, threads, [&](std::size_t i) {
      answers[2 * i] = distanceOf(*a, *b, poses[i]);
      answers[2 * i + 1] = static_cast<double>(contactsOf(*a, *b, poses[i], 1000));
    });
    return answers;
  };
  const std::vector<double> alone =
      ask(1);  // First, for FCL fills its look-up tables at the first call.
  EXPECT_EQ(ask(4), alone) << "seed " << kSeed;
}

}  // namespace
}  // namespace swingroom
