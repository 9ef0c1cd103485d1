// Bodies of known form, written by OCCT and read back: volumes, distances and axes by closed form.
#include <gtest/gtest.h>

#include <BRepAlgoAPI_Cut.hxx>
#include <BRepAlgoAPI_Fuse.hxx>
#include <BRepBuilderAPI_GTransform.hxx>
#include <BRepBuilderAPI_Transform.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCone.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRepPrimAPI_MakeSphere.hxx>
#include <BRepPrimAPI_MakeTorus.hxx>
#include <cmath>
#include <gp_GTrsf.hxx>
#include <random>

#include "core/base/transform.h"
#include "core/files/step/step_file.h"
#include "core/mesh/closest_points.h"
#include "core/mesh/health.h"
#include "tests/core/files/step/step_author.h"
#include "tests/support/shapes.h"
#include "tests/support/temp_folder.h"

namespace swingroom::step_tests {
namespace {

constexpr std::uint64_t kSeed = 20260711;

StepFile readBack(const std::string& bytes, double deviationMm) {
  const TempFolder folder;
  Outcome<StepFile> read = readStep(folder.write("lid.step", bytes), deviationMm);
  if (!read) throw std::runtime_error(toText(read.problems().front()));
  return *std::move(read);
}

StepBody onlyBody(const TopoDS_Shape& shape, double deviationMm = 0.01) {
  StepFile file = readBack(stepOf(shape), deviationMm);
  EXPECT_EQ(file.bodies.size(), 1u);
  EXPECT_TRUE(file.notes.empty()) << toText(file.notes.front());
  return file.bodies.front();
}

/// Closed, outwards, without a flaw that `examine` knows; its volume.
double soundVolume(const TriangleMesh& mesh) {
  const MeshHealth health = examine(mesh);
  EXPECT_TRUE(health.closed());
  EXPECT_EQ(health.openEdges + health.nonManifoldEdges + health.repeatedTriangles +
                health.insideOutShells,
            0u);
  return health.volumeMm3;
}

/// Places that lie evenly on the mesh.
std::vector<Vector3d> placesOn(const TriangleMesh& mesh, int perTriangle) {
  std::mt19937_64 random(kSeed);
  std::uniform_real_distribution<double> share(0, 1);
  std::vector<Vector3d> places;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    for (int i = 0; i < perTriangle; ++i) {
      double a = share(random), b = share(random);
      if (a + b > 1) a = 1 - a, b = 1 - b;
      places.push_back(mesh.corner(t, 0) + a * (mesh.corner(t, 1) - mesh.corner(t, 0)) +
                       b * (mesh.corner(t, 2) - mesh.corner(t, 0)));
    }
  }
  return places;
}

double distanceToMesh(const Vector3d& p, const TriangleMesh& mesh) {
  double least = 1e300;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const Vector3d q =
        closestPointOnTriangle(p, {mesh.corner(t, 0), mesh.corner(t, 1), mesh.corner(t, 2)});
    least = std::min(least, (p - q).norm());
  }
  return least;
}

TEST(StepSolids, BoxIsExact) {
  const StepBody body = onlyBody(BRepPrimAPI_MakeBox(gp_Pnt(1, 2, 3), gp_Pnt(11, 22, 43)));
  EXPECT_EQ(body.mesh.triangles.size(), 12u);
  EXPECT_EQ(body.mesh.vertices.size(), 8u);
  EXPECT_NEAR(soundVolume(body.mesh), 10 * 20 * 40, 1e-9);
  const auto box = boundsOf(body.mesh);
  EXPECT_LT((box.min() - Vector3d(1, 2, 3)).norm() + (box.max() - Vector3d(11, 22, 43)).norm(), 1e-12);
  EXPECT_LT(body.deviationMm, 1e-12);
  EXPECT_TRUE(body.features.cylinders.empty() && body.features.balls.empty());
}

// Corners on the circle, N sides: sagitta r (1 - cos(pi / N)), volume N/2 r^2 sin(2 pi / N) h.
// Down to the thinnest pins there are 24 sides.
TEST(StepSolids, CylinderHasTheSidesThatItsDeviationAsksFor) {
  for (const double deviation : {0.1, 0.01, 0.001}) {
    for (const double radius : {0.2, 1.0, 2.5, 30.0}) {
      SCOPED_TRACE(std::to_string(deviation) + " on " + std::to_string(radius));
      const double height = 7;
      const StepBody body = onlyBody(BRepPrimAPI_MakeCylinder(radius, height), deviation);
      const auto sides = static_cast<int>(
          std::count_if(body.mesh.vertices.begin(), body.mesh.vertices.end(), [&](const Vector3d& v) {
            return std::abs(v.z()) < 1e-9 && std::abs(std::hypot(v.x(), v.y()) - radius) < 1e-9;
          }));
      EXPECT_GE(sides, 24);
      EXPECT_LE(shapes::sagitta(radius, sides), deviation);
      EXPECT_NEAR(soundVolume(body.mesh),
                  height * sides / 2 * radius * radius * std::sin(2 * kPi / sides), 1e-9 * radius);
      EXPECT_NEAR(body.deviationMm, shapes::sagitta(radius, sides), 1e-9);
      ASSERT_EQ(body.features.cylinders.size(), 1u);
    }
  }
}

TEST(StepSolids, BallLiesWithinItsDeviationBothWays) {
  const double radius = 6, deviation = 0.02;
  const StepBody body = onlyBody(BRepPrimAPI_MakeSphere(gp_Pnt(3, -4, 5), radius), deviation);
  const Vector3d centre(3, -4, 5);
  for (const Vector3d& p : placesOn(body.mesh, 5)) {
    const double away = (p - centre).norm();
    EXPECT_LE(away, radius + 1e-9);
    EXPECT_GE(away, radius - deviation);
  }
  std::mt19937_64 random(kSeed);
  std::normal_distribution<double> normal;
  for (int i = 0; i < 300; ++i) {
    const Vector3d n = Vector3d(normal(random), normal(random), normal(random)).normalized();
    EXPECT_LE(distanceToMesh(centre + radius * n, body.mesh), deviation);
  }
  const double volume = 4.0 / 3 * kPi * std::pow(radius, 3);
  EXPECT_LT(soundVolume(body.mesh), volume);
  EXPECT_GT(soundVolume(body.mesh), volume - deviation * 4 * kPi * radius * radius);
  ASSERT_EQ(body.features.balls.size(), 1u);
  const BallFeature& ball = body.features.balls.front();
  EXPECT_LT((ball.centre - centre).norm(), 1e-9);
  EXPECT_NEAR(ball.radiusMm, radius, 1e-9);
  EXPECT_NEAR(ball.share, 1, 1e-6);
  EXPECT_TRUE(ball.outward);
  EXPECT_EQ(ball.residualMm, 0);
}

// Volume 2 pi^2 R r^2, area 4 pi^2 R r.
TEST(StepSolids, TorusLiesWithinItsDeviation) {
  const double ring = 15, tube = 4, deviation = 0.01;
  const StepBody body = onlyBody(BRepPrimAPI_MakeTorus(ring, tube), deviation);
  for (const Vector3d& p : placesOn(body.mesh, 3)) {
    const double away = std::hypot(std::hypot(p.x(), p.y()) - ring, p.z());
    EXPECT_LE(std::abs(away - tube), deviation);
  }
  EXPECT_NEAR(soundVolume(body.mesh), 2 * kPi * kPi * ring * tube * tube,
              deviation * 4 * kPi * kPi * ring * tube);
  EXPECT_TRUE(body.features.cylinders.empty() && body.features.balls.empty());
}

// Volume pi h (a^2 + a b + b^2) / 3; the tip is one corner.
TEST(StepSolids, ConeWithItsTipIsClosedAndNoCylinder) {
  const double low = 5, high = 12, deviation = 0.01;
  const StepBody body = onlyBody(BRepPrimAPI_MakeCone(low, 0, high), deviation);
  const double volume = kPi * high * low * low / 3;
  EXPECT_LT(soundVolume(body.mesh), volume + 1e-9);
  EXPECT_GT(soundVolume(body.mesh), volume - deviation * kPi * low * std::hypot(low, high));
  EXPECT_TRUE(body.features.cylinders.empty());
}

// A ball stretched to half axes a, b, c: free-form surfaces. Volume 4/3 pi a b c; the distance of a
// place near it is |f| / |grad f| of f = x^2/a^2 + ... - 1, to second order in the distance.
TEST(StepSolids, FreeFormSurfaceLiesWithinItsDeviation) {
  const Vector3d half(12, 7, 4);
  gp_GTrsf stretch;
  for (int i = 1; i <= 3; ++i) stretch.SetValue(i, i, half[i - 1]);
  const TopoDS_Shape shape =
      BRepBuilderAPI_GTransform(BRepPrimAPI_MakeSphere(1).Shape(), stretch, true).Shape();
  for (const double deviation : {0.05, 0.01}) {
    const StepBody body = onlyBody(shape, deviation);
    EXPECT_LE(body.deviationMm, deviation);
    for (const Vector3d& p : placesOn(body.mesh, 3)) {
      const Vector3d q = p.cwiseQuotient(half);
      const double distance =
          std::abs(q.squaredNorm() - 1) / (2 * q.cwiseQuotient(half)).norm();
      EXPECT_LE(distance, deviation * 1.001) << p.transpose();
    }
    EXPECT_NEAR(soundVolume(body.mesh), 4.0 / 3 * kPi * half.prod(),
                deviation * 4 * kPi * half.x() * half.y());
  }
}

/// A plate of 40 x 30 x 8 with a through hole and a blind one, and a pin on it.
TopoDS_Shape plateWithHoles() {
  TopoDS_Shape plate = BRepPrimAPI_MakeBox(gp_Pnt(0, 0, 0), gp_Pnt(40, 30, 8));
  plate = BRepAlgoAPI_Cut(plate, BRepPrimAPI_MakeCylinder(gp_Ax2(gp_Pnt(10, 10, -1), gp_Dir(0, 0, 1)),
                                                          2.2, 10));
  return BRepAlgoAPI_Cut(plate, BRepPrimAPI_MakeCylinder(gp_Ax2(gp_Pnt(30, 15, 3), gp_Dir(0, 0, 1)),
                                                         3, 10));
}

TEST(StepSolids, HolesHaveTheirExactAxesAndLengths) {
  const gp_Trsf X = turnedAndMoved(0.7, 3, -5, 11);
  const StepBody body = onlyBody(BRepBuilderAPI_Transform(plateWithHoles(), X, true));
  soundVolume(body.mesh);
  ASSERT_EQ(body.features.cylinders.size(), 2u);
  const auto at = [&](double x, double y, double z) {
    const gp_Pnt p = gp_Pnt(x, y, z).Transformed(X);
    return Vector3d(p.X(), p.Y(), p.Z());
  };
  struct Hole {
    double radius;
    Vector3d low, high;
  };
  for (const Hole& hole : {Hole{2.2, at(10, 10, 0), at(10, 10, 8)}, Hole{3, at(30, 15, 3), at(30, 15, 8)}}) {
    const auto found = std::find_if(
        body.features.cylinders.begin(), body.features.cylinders.end(),
        [&](const CylinderFeature& f) { return std::abs(f.radiusMm - hole.radius) < 1e-9; });
    ASSERT_NE(found, body.features.cylinders.end());
    EXPECT_FALSE(found->outward);
    EXPECT_EQ(found->residualMm, 0);
    EXPECT_NEAR(found->coverageRad, 2 * kPi, 1e-9);
    const Vector3d from = found->through + found->fromMm * found->along;
    const Vector3d to = found->through + found->toMm * found->along;
    const bool same = (from - hole.low).norm() < (from - hole.high).norm();
    EXPECT_LT((from - (same ? hole.low : hole.high)).norm(), 1e-9);
    EXPECT_LT((to - (same ? hole.high : hole.low)).norm(), 1e-9);
  }
}

TEST(StepSolids, PinLooksOutAndARoundedCornerCoversItsQuarter) {
  const StepBody pin = onlyBody(BRepPrimAPI_MakeCylinder(gp_Ax2(gp_Pnt(1, 2, 3), gp_Dir(0, 1, 0)), 2, 9));
  ASSERT_EQ(pin.features.cylinders.size(), 1u);
  EXPECT_TRUE(pin.features.cylinders[0].outward);
  const StepBody quarter = onlyBody(BRepPrimAPI_MakeCylinder(2, 9, kPi / 2));
  ASSERT_EQ(quarter.features.cylinders.size(), 1u);
  EXPECT_NEAR(quarter.features.cylinders[0].coverageRad, kPi / 2, 1e-9);
  EXPECT_NEAR(quarter.features.cylinders[0].toMm - quarter.features.cylinders[0].fromMm, 9, 1e-9);
}

// Many programs write a cylinder as two halves.
TEST(StepSolids, TwoHalvesOfAPinAreOnePin) {
  const TopoDS_Shape pin = BRepAlgoAPI_Fuse(
      BRepPrimAPI_MakeCylinder(gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1), gp_Dir(1, 0, 0)), 2, 9, kPi),
      BRepPrimAPI_MakeCylinder(gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1), gp_Dir(-1, 0, 0)), 2, 9, kPi));
  const StepBody body = onlyBody(pin);
  EXPECT_LT(soundVolume(body.mesh), kPi * 4 * 9);
  EXPECT_GT(soundVolume(body.mesh), kPi * 4 * 9 - 0.01 * 2 * kPi * 2 * 9);
  ASSERT_EQ(body.features.cylinders.size(), 1u);
  EXPECT_EQ(body.features.cylinders[0].coverageRad, 2 * kPi);
}

TEST(StepSolids, HolesOnOneAxisWithAGapBetweenAreTwo) {
  TopoDS_Shape fork = BRepAlgoAPI_Cut(BRepPrimAPI_MakeBox(10, 10, 30),
                                      BRepPrimAPI_MakeBox(gp_Pnt(0, 0, 10), 10, 10, 10));
  fork = BRepAlgoAPI_Cut(fork, BRepPrimAPI_MakeCylinder(gp_Ax2(gp_Pnt(5, 5, -1), gp_Dir(0, 0, 1)), 2, 40));
  StepFile file = readBack(stepOf(fork), 0.01);
  std::size_t holes = 0;
  for (const StepBody& body : file.bodies) holes += body.features.cylinders.size();
  EXPECT_EQ(holes, 2u);
}

TEST(StepSolids, SocketIsASphereThatLooksIn) {
  const TopoDS_Shape socket = BRepAlgoAPI_Cut(BRepPrimAPI_MakeBox(gp_Pnt(-8, -8, -8), gp_Pnt(8, 8, 0)),
                                              BRepPrimAPI_MakeSphere(gp_Pnt(0, 0, 0), 5));
  const StepBody body = onlyBody(socket);
  soundVolume(body.mesh);
  ASSERT_EQ(body.features.balls.size(), 1u);
  EXPECT_FALSE(body.features.balls[0].outward);
  EXPECT_NEAR(body.features.balls[0].share, 0.5, 1e-6);
  EXPECT_NEAR(body.features.balls[0].radiusMm, 5, 1e-9);
}

TEST(StepSolids, HollowBodyKeepsItsCavity) {
  const StepBody body = onlyBody(BRepAlgoAPI_Cut(BRepPrimAPI_MakeBox(20, 20, 20),
                                                 BRepPrimAPI_MakeBox(gp_Pnt(5, 5, 5), 10, 10, 10)));
  EXPECT_NEAR(soundVolume(body.mesh), 8000 - 1000, 1e-9);
  EXPECT_EQ(examine(body.mesh).shells.size(), 2u);
}

TEST(StepSolids, SameFileGivesTheSameBytes) {
  const std::string bytes = stepOf(plateWithHoles());
  const StepFile once = readBack(bytes, 0.01), again = readBack(bytes, 0.01);
  EXPECT_EQ(once.bodies[0].mesh, again.bodies[0].mesh);
}

}  // namespace
}  // namespace swingroom::step_tests
