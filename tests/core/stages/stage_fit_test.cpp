// What an export did to a part, told from what sculpting does.
#include "core/stages/stage_fit.h"

#include <gtest/gtest.h>

#include <random>

#include "core/stages/stage_notes.h"
#include "tests/core/stages/stage_shapes.h"

namespace swingroom {
namespace {

using shapes::inFloats;
using shapes::stage;
using Eigen::Affine3d;

/// No symmetry: an L of 40 x 24 x 10 with a peg on it, away from the origin.
TriangleMesh bracket() {
  const TriangleMesh foot =
      shapes::prism({{5, 3}, {45, 3}, {45, 11}, {14, 11}, {14, 27}, {5, 27}}, 2, 12);
  return shapes::joined({foot, shapes::moved(shapes::cylinder(2.5, 10, 18, 40), translation({38, 7, 0}))});
}

StageFit fitAfter(const Affine3d& X) {
  return stageFitOf(stage(bracket()), stage(inFloats(transformed(shapes::splitFiner(bracket(), 2), X))));
}

Affine3d linear(const Eigen::Matrix3d& R) {
  Affine3d X = Affine3d::Identity();
  X.linear() = R;
  return X;
}

/// Bumps of up to `mm`, of some millimetres' length, everywhere.
TriangleMesh bumpy(const TriangleMesh& mesh, double mm, unsigned seed) {
  std::mt19937_64 random(seed);
  std::uniform_real_distribution<double> phase(0, 2 * kPi);
  const Vector3d a(phase(random), phase(random), phase(random));
  return shapes::sculpted(mesh, [=](const Vector3d& p) {
    return mm * (0.5 + 0.5 * std::sin(2.1 * p.x() + a.x()) * std::sin(1.7 * p.y() + a.y()) *
                           std::cos(1.9 * p.z() + a.z()));
  });
}

TEST(StageFit, ShiftsAreToldWithTheirSizeAndWay) {
  for (const Vector3d& by : {Vector3d(0, 0, -3.2), Vector3d(0.18, 0, 0), Vector3d(12, -7, 4), Vector3d(0, 60, 0)}) {
    const StageFit fit = fitAfter(Affine3d(Eigen::Translation3d(by)));
    EXPECT_EQ(fit.kind, StageFitKind::shifted) << by.transpose();
    EXPECT_NEAR((fit.X.translation() - by).norm(), 0, 0.01) << by.transpose();
    EXPECT_EQ(fit.factor, 1);
  }
  const StageFit fit = fitAfter(Affine3d(Eigen::Translation3d(0, 0, -3.2)));
  StageFaults faults;
  faults.fit = fit;
  const Problems notes = stageNotes("arm_detail.stl", faults);
  ASSERT_EQ(notes.size(), 1u);
  EXPECT_EQ(toText(notes[0]),
            "arm_detail.stl: stands 3.20 mm off its block, towards -z (its origin was moved: move it "
            "back by (0.00, 0.00, 3.20) mm, or export it in the block's frame)");
}

TEST(StageFit, UnitsAreTold) {
  for (const double factor : {25.4, 10.0, 1000.0, 1 / 25.4, 0.1, 0.001}) {
    const StageFit fit = fitAfter(linear(Eigen::Matrix3d::Identity() / factor));
    EXPECT_EQ(fit.factor, factor);
    EXPECT_EQ(fit.kind, StageFitKind::fits) << factor;
    StageFaults faults;
    faults.fit = fit;
    ASSERT_EQ(stageNotes("x.stl", faults).size(), 1u) << factor;
  }
  StageFaults faults;
  faults.fit = fitAfter(linear(Eigen::Matrix3d::Identity() / 25.4));
  EXPECT_EQ(toText(stageNotes("x.stl", faults)[0]),
            "x.stl: is 25.4 times too small against its block (its numbers seem to be inches: export "
            "it in mm)");
}

// A cube of 1 inch, whose numbers are 1: no size of it says which way it lies.
TEST(StageFit, ACubeInInches) {
  const StageSurface block = stage(shapes::box({0, 0, 0}, {25.4, 25.4, 25.4}));
  const StageFit fit = stageFitOf(block, stage(shapes::box({0, 0, 0}, {1, 1, 1})));
  EXPECT_EQ(fit.factor, 25.4);
  EXPECT_EQ(fit.kind, StageFitKind::fits);
}

TEST(StageFit, AxesThatWereExchangedAreTold) {
  Eigen::Matrix3d yUp;  // The block's z is the file's y, its y the file's -z.
  yUp << 1, 0, 0, 0, 0, 1, 0, -1, 0;
  const StageFit fit = fitAfter(linear(yUp));
  EXPECT_EQ(fit.kind, StageFitKind::swapped);
  EXPECT_NEAR((fit.X.linear() - yUp).norm(), 0, 1e-9);
  StageFaults faults;
  faults.fit = fit;
  EXPECT_EQ(stageNotes("x.stl", faults)[0].what,
            "has other axes than its block: the block's y is -z, its z is y");
  Eigen::Matrix3d round;  // x to y, y to z, z to x.
  round << 0, 0, 1, 1, 0, 0, 0, 1, 0;
  EXPECT_EQ(fitAfter(linear(round)).kind, StageFitKind::swapped);
}

TEST(StageFit, MirrorImagesAreTold) {
  for (int axis = 0; axis < 3; ++axis) {
    Eigen::Matrix3d mirror = Eigen::Matrix3d::Identity();
    mirror(axis, axis) = -1;
    const StageFit fit = fitAfter(linear(mirror));
    EXPECT_EQ(fit.kind, StageFitKind::mirrored) << axis;
    StageFaults faults;
    faults.fit = fit;
    EXPECT_EQ(stageNotes("x.stl", faults)[0].what,
              std::string("is its block's mirror image in ") + "xyz"[axis]);
  }
}

TEST(StageFit, ATurnIsTold) {
  const Pose X = rotationAbout({20, 10, 5}, Vector3d(1, 2, 3).normalized(), radFromDeg(35));
  const StageFit fit = fitAfter(Affine3d(X.matrix()));
  EXPECT_EQ(fit.kind, StageFitKind::turned);
  EXPECT_NEAR(degFromRad(Eigen::AngleAxisd(fit.X.linear()).angle()), 35, 0.05);
}

TEST(StageFit, AllThatOnASculptedPart) {
  const unsigned seed = 71;
  const TriangleMesh detail = bumpy(shapes::splitFiner(bracket(), 4), 0.6, seed);
  const StageSurface block = stage(bracket());
  const auto fitOf = [&](const Affine3d& X) { return stageFitOf(block, stage(inFloats(transformed(detail, X)))); };
  EXPECT_TRUE(fitOf(Affine3d::Identity()).isFine()) << "seed " << seed;
  const StageFit shifted = fitOf(Affine3d(Eigen::Translation3d(0, 2.5, 0)));
  EXPECT_EQ(shifted.kind, StageFitKind::shifted);
  EXPECT_NEAR((shifted.X.translation() - Vector3d(0, 2.5, 0)).norm(), 0, 0.3);
  Eigen::Matrix3d yUp;
  yUp << 1, 0, 0, 0, 0, 1, 0, -1, 0;
  EXPECT_EQ(fitOf(linear(yUp)).kind, StageFitKind::swapped);
  EXPECT_EQ(fitOf(linear(Eigen::Vector3d(-1, 1, 1).asDiagonal().toDenseMatrix())).kind, StageFitKind::mirrored);
  const StageFit inches = fitOf(linear(Eigen::Matrix3d::Identity() / 25.4));
  EXPECT_EQ(inches.factor, 25.4);
  EXPECT_EQ(inches.kind, StageFitKind::fits);
}

TEST(StageFit, AnotherPartIsTold) {
  const StageSurface block = stage(bracket());
  for (const TriangleMesh& other :
       {shapes::torus(15, 4, 64, 32), shapes::moved(shapes::sphere(14, 4), translation({25, 15, 7})),
        shapes::moved(shapes::cylinder(3, 0, 60, 48), translation({10, 10, 0}))}) {
    EXPECT_EQ(stageFitOf(block, stage(other)).kind, StageFitKind::other);
  }
}

TEST(StageFit, HonestSculptingIsNoMistake) {
  const TriangleMesh part = bracket(), fine = shapes::splitFiner(part, 4);
  const StageSurface block = stage(part);
  for (unsigned seed = 1; seed <= 3; ++seed) {
    for (const double mm : {0.2, 0.5, 1.0, -0.3}) {
      const StageFit fit = stageFitOf(block, stage(inFloats(bumpy(fine, mm, seed))));
      EXPECT_TRUE(fit.isFine()) << "seed " << seed << ", " << mm << " mm";
    }
  }
  // Planks on one side and on half of it: 0.5 mm thick, a groove each 3 mm.
  const auto planked = [&](const Vector3d& side) {
    return shapes::sculpted(fine, [side](const Vector3d& p) {
      const bool there = side.dot(p - Vector3d(25, 15, 7)) > 0;
      return there ? (std::fmod(p.x() + 100, 3.0) < 0.5 ? 0.1 : 0.5) : 0.0;
    });
  };
  for (const Vector3d& side : {Vector3d(0, 0, 1), Vector3d(1, 0, 0), Vector3d(0, -1, 0), Vector3d(1, 1, 1)}) {
    EXPECT_TRUE(stageFitOf(block, stage(planked(side))).isFine()) << side.transpose();
  }
  // One face grown by 1 mm.
  const TriangleMesh box = shapes::box({0, 0, 0}, {20, 30, 10});
  EXPECT_TRUE(stageFitOf(stage(box), stage(shapes::box({0, 0, 0}, {21, 30, 10}))).isFine());
  EXPECT_TRUE(stageFitOf(stage(box), stage(shapes::box({-1, -1, 0}, {21, 31, 11}))).isFine());
}

}  // namespace
}  // namespace swingroom
