#include "core/motion/registration.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "core/motion/screw.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

constexpr unsigned kRegistrationSeed = 20240611;

/// What a binary STL file keeps of a mesh: coordinates as floats.
TriangleMesh asWritten(TriangleMesh mesh) {
  for (Vector3d& v : mesh.vertices) v = v.cast<float>().cast<double>();
  return mesh;
}

TriangleMesh shuffled(TriangleMesh mesh, std::mt19937_64& random) {
  std::shuffle(mesh.triangles.begin(), mesh.triangles.end(), random);
  for (Triangle& t : mesh.triangles) std::rotate(t.begin(), t.begin() + random() % 3, t.end());
  return mesh;
}

/// No symmetry: a box with a pin and a smaller box on it, 80 mm long.
TriangleMesh bracket() {
  return shapes::joined({shapes::box({0, 0, 0}, {80, 30, 6}),
                         shapes::moved(shapes::cylinder(4, 5, 20, 24), translation({65, 20, 0})),
                         shapes::box({5, 5, 5}, {15, 12, 11})});
}

TriangleMesh mirroredInX(const TriangleMesh& mesh) {
  Eigen::Affine3d X = Eigen::Affine3d::Identity();
  X.linear()(0, 0) = -1;
  return transformed(mesh, X);
}

double angleBetween(const Pose& a, const Pose& b) {
  return rotationVectorOf(a.linear().transpose() * b.linear()).norm();
}

double farthestApart(const TriangleMesh& mesh, const Pose& a, const Pose& b) {
  double most = 0;
  for (const Vector3d& v : mesh.vertices) most = std::max(most, (a * v - b * v).norm());
  return most;
}

// Closed form: the displacement that was used to move the mesh. A float has 24 bits, so coordinates
// below 256 mm are off by at most 8e-6 mm; the fit averages them.
TEST(Registration, FindsTheDisplacementOfAFloatFileToTwentyNanometres) {
  std::mt19937_64 random(kRegistrationSeed);
  RecordProperty("seed", kRegistrationSeed);
  for (int i = 0; i < 20; ++i) {
    const Pose D = shapes::randomPose(random, 100);
    const auto found =
        registerPart("bracket.stl", asWritten(bracket()), asWritten(shapes::moved(bracket(), D)));
    ASSERT_TRUE(found.ok()) << toText(found.problems().front());
    EXPECT_LT(farthestApart(bracket(), found->D, D), 2e-5) << "seed " << kRegistrationSeed << ", " << i;
    EXPECT_TRUE(found->inFileOrder);
    EXPECT_TRUE(found->alternatives.empty());
  }
}

TEST(Registration, SymmetricPinKeepsItsTurnIfTheTrianglesKeepTheirOrder) {
  const TriangleMesh pin = shapes::cylinder(2, -10, 10, 32);
  const Pose D = rotationAbout({0, 0, 0}, Vector3d::UnitZ(), radFromDeg(55));
  const auto found = registerPart("pin.stl", asWritten(pin), asWritten(shapes::moved(pin, D)));
  ASSERT_TRUE(found.ok());
  EXPECT_LT(angleBetween(found->D, D), 1e-6);
}

TEST(Registration, FindsThePartWhenItsTrianglesAreShuffled) {
  std::mt19937_64 random(kRegistrationSeed);
  for (int i = 0; i < 20; ++i) {
    const Pose D = shapes::randomPose(random, 100);
    const auto found = registerPart("bracket.stl", asWritten(bracket()),
                                    shuffled(asWritten(shapes::moved(bracket(), D)), random));
    ASSERT_TRUE(found.ok()) << "seed " << kRegistrationSeed << ", " << i << toText(found.problems().front());
    EXPECT_LT(farthestApart(bracket(), found->D, D), 2e-5) << "seed " << kRegistrationSeed << ", " << i;
    EXPECT_FALSE(found->inFileOrder);
    EXPECT_TRUE(found->alternatives.empty());
  }
}

// A prism of 32 sides looks the same in 32 turns about its axis and, end for end, in 32 more.
// Turned by 5 of its sides it looks as if it were not turned at all.
TEST(Registration, ShuffledPinFitsInSixtyFourWaysAndTheLeastTurnComesFirst) {
  std::mt19937_64 random(kRegistrationSeed);
  const TriangleMesh pin = shapes::cylinder(2, -10, 10, 32);
  const Pose D = translation({30, 0, 0}) *
                 rotationAbout({0, 0, 0}, Vector3d::UnitZ(), radFromDeg(5 * 360.0 / 32));
  const auto found =
      registerPart("pin.stl", asWritten(pin), shuffled(asWritten(shapes::moved(pin, D)), random));
  ASSERT_TRUE(found.ok());
  EXPECT_EQ(found->alternatives.size(), 63u);
  EXPECT_LT(angleBetween(found->D, Pose::Identity()), 1e-5);
  const bool trueOneIsThere =
      std::any_of(found->alternatives.begin(), found->alternatives.end(),
                  [&](const Pose& X) { return farthestApart(pin, X, D) < 1e-4; });
  EXPECT_TRUE(trueOneIsThere);
}

TEST(Registration, MirroredPartIsRefusedInThatWord) {
  std::mt19937_64 random(kRegistrationSeed);
  const TriangleMesh mirrored = mirroredInX(bracket());
  for (const TriangleMesh& other : {mirrored, shuffled(mirrored, random)}) {
    const auto found = registerPart("bracket.stl", bracket(), other);
    ASSERT_FALSE(found.ok());
    EXPECT_EQ(found.problems().front().where, "bracket.stl");
    EXPECT_NE(found.problems().front().what.find("mirrored"), std::string::npos)
        << found.problems().front().what;
  }
}

// A box is its own mirror image: its mirrored file is the same part.
TEST(Registration, MirroredBoxIsABox) {
  const TriangleMesh box = shapes::box({0, 0, 0}, {50, 20, 10});
  const auto found = registerPart("box.stl", box, mirroredInX(box));
  ASSERT_TRUE(found.ok()) << toText(found.problems().front());
  EXPECT_LT(found->residualMm, 1e-9);
}

/// The size in a message: the number before " mm".
double sizeIn(const std::string& text) {
  const auto end = text.find(" mm");
  const auto begin = text.rfind(' ', end - 1) + 1;
  return std::stod(text.substr(begin, end - begin));
}

// The pin of 24 sides is 1.3 mm longer, all else is as it was: laid on each other, only its end is
// off, by 1.3 mm. Two digits are written.
TEST(Registration, ChangedShapeIsRefusedWithItsSize) {
  std::mt19937_64 random(kRegistrationSeed);
  const auto longer = [&] {
    TriangleMesh mesh = bracket();
    for (Vector3d& v : mesh.vertices) {
      if (v.z() == 20) v.z() = 21.3;
    }
    return shapes::moved(mesh, shapes::randomPose(random, 50));
  }();
  for (const TriangleMesh& other : {longer, shuffled(longer, random)}) {
    const auto found = registerPart("bracket.stl", bracket(), other);
    ASSERT_FALSE(found.ok());
    EXPECT_NE(found.problems().front().what.find("differs in shape"), std::string::npos);
    EXPECT_NEAR(sizeIn(found.problems().front().what), 1.3, 0.1) << found.problems().front().what;
  }
}

TEST(Registration, QuiteAnotherPartIsRefused) {
  const auto found = registerPart("lid.stl", bracket(), shapes::tube(30, 20, 0, 10, 48));
  ASSERT_FALSE(found.ok());
  EXPECT_NE(found.problems().front().what.find("differs in shape"), std::string::npos);
}

// Another program may split the same faces into other triangles. Corners added on a face do not
// change the shape. The half-way points of floats are floats again only nearly: 1e-5 mm.
TEST(Registration, SameShapeInOtherTrianglesIsTheSamePart) {
  TriangleMesh other = bracket();
  const auto [a, b, c] = other.triangles.front();
  const auto middle = static_cast<std::uint32_t>(other.vertices.size());
  other.vertices.push_back((other.vertices[a] + other.vertices[b] + other.vertices[c]) / 3);
  other.triangles.front() = {a, b, middle};
  other.triangles.push_back({b, c, middle});
  other.triangles.push_back({c, a, middle});
  const Pose D = rotationAbout({3, 2, 1}, Vector3d(1, 2, 2) / 3, radFromDeg(40));
  const auto found = registerPart("bracket.stl", bracket(), shapes::moved(other, D));
  ASSERT_TRUE(found.ok()) << toText(found.problems().front());
  EXPECT_LT(farthestApart(bracket(), found->D, D), 0.01);
}

}  // namespace
}  // namespace swingroom
