// Keyed moments of glTF animations as modes. Places by the specification's own formulas, joints by
// what the mechanism was built from.
#include <cmath>

#include "core/files/scenes/keyed_motion.h"
#include "core/files/scenes/keyed_pose.h"
#include "tests/scenes/read_back.h"
#include "tests/scenes/writers/gltf_writer.h"

namespace swingroom {
namespace {

using writers::GltfWriter;

constexpr double kMm = 0.001;

Eigen::Vector4d turnBy(double angleDeg, const Vector3d& axis) {
  return Eigen::Quaterniond(Eigen::AngleAxisd(radFromDeg(angleDeg), axis)).coeffs();
}

/// In metres, Y up: a post at the origin and a door whose node stands on the hinge's line, 30 mm
/// along x, and turns about y (which is z in the assembly).
class DoorTest : public ::testing::Test {
 protected:
  DoorTest() {
    writer_.addNode({"post", writer_.addMesh("", shapes::box(kMm * Vector3d(0, 0, 0),
                                                             kMm * Vector3d(29, 50, 20)))});
    door_ = writer_.addNode({"door",
                             writer_.addMesh("", shapes::box(kMm * Vector3d(0.2, 1, 1),
                                                             kMm * Vector3d(40, 49, 9))),
                             -1, Vector3d(0.03, 0, 0)});
  }

  int swing(const std::string& name, double toDeg = 70) {
    const int animation = writer_.addAnimation(name);
    writer_.addTrack(animation, door_, "rotation", {0, 2.5},
                     {turnBy(0, Vector3d::UnitY()), turnBy(toDeg, Vector3d::UnitY())});
    return animation;
  }

  Outcome<NewAssembly> make(const std::string& poses) {
    writer_.write(folder_.path() / "door.glb");
    NewAssemblyWish wish;
    wish.source = folder_.path() / "door.glb";
    wish.file = folder_.path() / "made.swing.json";
    wish.threads = 2;
    const auto read = readKeyedWishes(poses);
    if (!read) return read.problems();
    wish.poses = *read;
    return newAssembly(wish, MeshReader::besideThisProgram());
  }

  std::string failure(const std::string& poses) {
    const auto made = make(poses);
    return made.ok() ? "it was made" : textOf(made.problems());
  }

  const TempFolder folder_;
  GltfWriter writer_;
  int door_ = 0;
};

TEST_F(DoorTest, TwoKeyedTimesGiveTheHinge) {
  swing("open");
  const auto made = make("shut=0,open=2.5");
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  const AssemblyDocument& document = made->document;
  ASSERT_EQ(document.modes.size(), 2u);
  EXPECT_EQ(document.modes[0].name, "shut");
  EXPECT_EQ(document.modes[1].name, "open");
  ASSERT_EQ(document.joints.size(), 1u);
  const DocumentJoint& hinge = document.joints[0];
  EXPECT_EQ(hinge.type, JointType::hinge);
  EXPECT_EQ(hinge.child, "door");
  const Vector3d along = Vector3d(hinge.along->data()).normalized();
  // y in the file is z here; single precision of the quaternion is 4e-6 degrees.
  EXPECT_LE(degFromRad(std::acos(std::min(1.0, std::abs(along.z())))), 1e-3);
  EXPECT_LE(std::hypot((*hinge.through)[0] - 30, (*hinge.through)[1]), 2e-4);
  EXPECT_NEAR(std::abs(std::get<double>(document.modes[1].values->at(hinge.name))), 70, 2e-4);
}

TEST_F(DoorTest, NamedAnimationsAreModes) {
  const int shut = writer_.addAnimation("shut");
  writer_.addTrack(shut, door_, "rotation", {0}, {turnBy(0, Vector3d::UnitY())});
  const int open = writer_.addAnimation("wide open");
  writer_.addTrack(open, door_, "rotation", {0}, {turnBy(70, Vector3d::UnitY())});
  const auto made = make("shut,open=wide open");
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  ASSERT_EQ(made->document.joints.size(), 1u);
  EXPECT_NEAR(std::abs(std::get<double>(
                  made->document.modes[1].values->at(made->document.joints[0].name))),
              70, 2e-4);
}

TEST_F(DoorTest, AnimationsOfDifferentPartsArePlayedTogether) {
  swing("door action");
  const int lid = writer_.addNode({"lid",
                                   writer_.addMesh("", shapes::box(kMm * Vector3d(0, 51, 0),
                                                                   kMm * Vector3d(29, 55, 20)))});
  const int animation = writer_.addAnimation("lid action");
  writer_.addTrack(animation, lid, "translation", {0, 2.5},
                   {Eigen::Vector4d::Zero(), Eigen::Vector4d(0, 0, 0.012, 0)});
  const auto made = make("shut=0,open=2.5");
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  ASSERT_EQ(made->document.joints.size(), 2u);
  const auto& joints = made->document.joints;
  const DocumentJoint& slide = joints[0].type == JointType::slide ? joints[0] : joints[1];
  EXPECT_EQ(slide.child, "lid");
  // z in the file is -y here.
  EXPECT_NEAR(std::abs(Vector3d(slide.along->data()).normalized().y()), 1, 1e-9);
  EXPECT_NEAR(std::abs(std::get<double>(made->document.modes[1].values->at(slide.name))), 12, 2e-4);
}

// Half way of a turn and slide at once: two joints on one axis.
TEST_F(DoorTest, TurnAndSlideAtOnceAreTwoJoints) {
  const int animation = swing("screw", 90);
  writer_.addTrack(animation, door_, "translation", {0, 2.5},
                   {Eigen::Vector4d(0.03, 0, 0, 0), Eigen::Vector4d(0.03, 0.008, 0, 0)});
  const auto made = make("shut=0,open=2.5");
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  ASSERT_EQ(made->document.joints.size(), 2u);
  EXPECT_EQ(made->document.joints[0].type, JointType::hinge);
  EXPECT_EQ(made->document.joints[1].type, JointType::slide);
  EXPECT_NEAR(std::abs(std::get<double>(made->document.modes[1].values->at(
                  made->document.joints[1].name))),
              8, 2e-4);
}

TEST_F(DoorTest, MoreKeyedTimesAreStepsAndTurnsAreFollowedRound) {
  const int lid = writer_.addNode({"lid",
                                   writer_.addMesh("", shapes::box(kMm * Vector3d(0, 51, 0),
                                                                   kMm * Vector3d(29, 55, 20)))});
  const int animation = writer_.addAnimation("all");
  const Vector3d y = Vector3d::UnitY();
  writer_.addTrack(animation, lid, "translation", {0, 1, 3},
                   {Eigen::Vector4d::Zero(), Eigen::Vector4d(0, 0, 0.012, 0),
                    Eigen::Vector4d(0, 0, 0.012, 0)});
  writer_.addTrack(animation, door_, "rotation", {1, 1.5, 2, 3},
                   {turnBy(0, y), turnBy(100, y), turnBy(200, y), turnBy(230, y)});
  const auto made = make("shut=0,open=3");
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  const AssemblyDocument& document = made->document;
  ASSERT_EQ(document.sequences.size(), 1u);
  const auto& steps = document.sequences[0].steps;
  // The turn is one straight line of values from 1 s on: one step.
  ASSERT_EQ(steps.size(), 2u);
  ASSERT_EQ(steps[0].moves.size(), 1u);
  EXPECT_NEAR(std::abs(std::get<double>(steps[0].moves.begin()->second)), 12, 2e-4);
  ASSERT_EQ(steps[1].moves.size(), 1u);
  EXPECT_NEAR(std::abs(std::get<double>(steps[1].moves.begin()->second)), 230, 1e-3);
  ASSERT_EQ(document.modes.size(), 2u);
  EXPECT_TRUE(loaded(*made, folder_).ok());
}

// The lid is where it was at both ends: only the way tells that it moves.
TEST_F(DoorTest, APartThatComesBackHasItsJointAndItsSteps) {
  const int lid = writer_.addNode({"lid",
                                   writer_.addMesh("", shapes::box(kMm * Vector3d(0, 51, 0),
                                                                   kMm * Vector3d(29, 55, 20)))});
  const int animation = writer_.addAnimation("all");
  const Vector3d y = Vector3d::UnitY();
  const Eigen::Vector4d down = Eigen::Vector4d::Zero(), up(0, 0.02, 0, 0);
  writer_.addTrack(animation, lid, "translation", {0, 1, 2, 3}, {down, up, up, down});
  writer_.addTrack(animation, door_, "rotation", {1, 2}, {turnBy(0, y), turnBy(60, y)});
  const auto made = make("shut=0,open=3");
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  const AssemblyDocument& document = made->document;
  const auto slide = std::find_if(document.joints.begin(), document.joints.end(),
                                  [](const auto& joint) { return joint.child == "lid"; });
  ASSERT_NE(slide, document.joints.end());
  EXPECT_EQ(slide->type, JointType::slide);
  // y in the file is z here.
  EXPECT_NEAR(std::abs(Vector3d(slide->along->data()).normalized().z()), 1, 1e-9);
  ASSERT_EQ(document.sequences.at(0).steps.size(), 3u);
  EXPECT_NEAR(std::abs(std::get<double>(document.sequences[0].steps[0].moves.at(slide->name))), 20,
              2e-4);
  EXPECT_NEAR(std::get<double>(document.sequences[0].steps[2].moves.at(slide->name)), 0, 2e-4);
  EXPECT_TRUE(loaded(*made, folder_).ok());
}

TEST_F(DoorTest, ThreeModesGiveTwoWays) {
  const int animation = writer_.addAnimation("all");
  const Vector3d y = Vector3d::UnitY();
  writer_.addTrack(animation, door_, "rotation", {0, 1, 2},
                   {turnBy(0, y), turnBy(30, y), turnBy(80, y)});
  const auto made = make("shut=0,ajar=1,open=2");
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  ASSERT_EQ(made->document.modes.size(), 3u);
  ASSERT_EQ(made->document.sequences.size(), 2u);
  EXPECT_EQ(made->document.sequences[1].name, "ajar to open");
  EXPECT_NEAR(std::abs(std::get<double>(made->document.modes[1].values->begin()->second)), 30, 1e-3);
}

TEST_F(DoorTest, WhatCannotBeMeantIsToldInWords) {
  swing("open");
  const auto says = [&](const std::string& poses, const std::string& words) {
    const std::string text = failure(poses);
    EXPECT_NE(text.find(words), std::string::npos) << poses << ": " << text;
  };
  says("shut=0,open=7", "there is nothing at 7 s");
  says("shut=0,open=7", "keyed at 0 s, 2.5 s");
  says("shut=-1,open=2.5", "there is nothing at -1 s");
  says("shut=0,open=swing", "there is no animation \"swing\"");
  says("shut=0,open=swing", "its animations are \"open\"");
  says("shut=0,shut=2.5", "two modes shut");
  says("shut=0,=2.5", "without a name");
  says("shut=0,open=0", "no part moves");
}

TEST_F(DoorTest, AFileWithoutAnimationOrWithOneThatMovesNoPartIsTold) {
  EXPECT_NE(failure("shut=0,open=1").find("has no animation"), std::string::npos);
  const int camera = writer_.addNode({"camera"});
  const int animation = writer_.addAnimation("fly");
  writer_.addTrack(animation, camera, "translation", {0, 1},
                   {Eigen::Vector4d::Zero(), Eigen::Vector4d(1, 0, 0, 0)});
  EXPECT_NE(failure("shut=0,open=1").find("they move no part"), std::string::npos);
}

TEST_F(DoorTest, AKeyedScaleIsNoRigidPart) {
  const int animation = writer_.addAnimation("grow");
  writer_.addTrack(animation, door_, "scale", {0, 1},
                   {Eigen::Vector4d(1, 1, 1, 0), Eigen::Vector4d(1, 2, 1, 0)});
  const std::string text = failure("small=0,large=1");
  EXPECT_NE(text.find("changes its size or shape between 0 s and 1 s"), std::string::npos) << text;
  EXPECT_NE(text.find("door.glb, door"), std::string::npos) << text;
}

TEST_F(DoorTest, TwoAnimationsOfOnePartNeedTheirNames) {
  swing("open");
  swing("open wider", 80);
  EXPECT_NE(failure("shut=0,open=2.5").find("several animations move the same parts"),
            std::string::npos);
  const auto made = make("shut=open@0,open=open wider@2.5");
  ASSERT_TRUE(made.ok()) << textOf(made.problems());
  EXPECT_NEAR(std::abs(std::get<double>(made->document.modes[1].values->begin()->second)), 80, 1e-3);
}

SceneTrack track(KeyedWay way, KeyedQuantity quantity, std::vector<Eigen::Vector4d> values) {
  return {0, quantity, way, {1, 3}, std::move(values)};
}

// glTF 2.0 Specification, appendix C: what stands between two keys.
TEST(KeyedValues, BetweenKeysAsTheSpecificationHasIt) {
  const Eigen::Vector4d a(1, 2, 3, 0), b(5, -2, 7, 0);
  const auto quantity = KeyedQuantity::translation;
  EXPECT_EQ(valueAt(track(KeyedWay::step, quantity, {a, b}), 2.9), a);
  EXPECT_EQ(valueAt(track(KeyedWay::step, quantity, {a, b}), 3), b);
  EXPECT_TRUE(valueAt(track(KeyedWay::linear, quantity, {a, b}), 1.5).isApprox(
      Eigen::Vector4d(2, 1, 4, 0), 1e-14));
  EXPECT_EQ(valueAt(track(KeyedWay::linear, quantity, {a, b}), -4), a);
  EXPECT_EQ(valueAt(track(KeyedWay::linear, quantity, {a, b}), 40), b);
  // A cubic Hermite spline through p(t) = t^3 with its own slopes is t^3 again.
  const auto cube = [](double t) { return Eigen::Vector4d(t * t * t, 0, 0, 0); };
  const auto slope = [](double t) { return Eigen::Vector4d(3 * t * t, 0, 0, 0); };
  const SceneTrack spline = track(KeyedWay::cubic, quantity,
                                  {slope(1), cube(1), slope(1), slope(3), cube(3), slope(3)});
  for (const double t : {1.0, 1.25, 2.0, 2.75, 3.0}) {
    EXPECT_NEAR(valueAt(spline, t).x(), t * t * t, 1e-12) << t;
  }
}

TEST(KeyedValues, TurnsGoTheShortWayAtAnEvenRate) {
  const Vector3d axis = Vector3d(1, 2, 2) / 3;
  const auto turn = [&](double deg) { return turnBy(deg, axis); };
  const SceneTrack turning =
      track(KeyedWay::linear, KeyedQuantity::rotation, {turn(10), -turn(100)});
  for (const double share : {0.0, 0.25, 0.5, 1.0}) {
    const Eigen::Vector4d value = valueAt(turning, 1 + 2 * share);
    EXPECT_NEAR(std::abs(value.dot(turn(10 + 90 * share))), 1, 1e-14) << share;
  }
}

}  // namespace
}  // namespace swingroom
