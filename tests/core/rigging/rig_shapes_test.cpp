#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "core/rigging/rig_suggestion.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

constexpr unsigned kRigSeed = 20262;

struct NamedMesh {
  const char* name;
  TriangleMesh mesh;
};

/// Parts in file order, all moved by `X` together.
std::vector<RigPart> rigParts(const std::vector<NamedMesh>& named,
                              const Pose& X = Pose::Identity()) {
  AssemblyParts parts;
  for (const NamedMesh& it : named) {
    parts.parts.push_back(
        {it.name, PartKind::printed, std::make_shared<const TriangleMesh>(it.mesh), X});
  }
  return rigPartsOf(Assembly(std::move(parts)), 2);
}

RigSuggestion suggested(std::vector<RigPart> parts, std::optional<PartId> ground = PartId{0}) {
  RigQuestion question;
  question.parts = std::move(parts);
  question.ground = ground;
  return suggestRig(question);
}

double lineDistance(const Joint& joint, const Vector3d& point) {
  const Vector3d w = point - joint.through;
  return (w - w.dot(joint.along) * joint.along).norm();
}

TriangleMesh shiftedBox(const Vector3d& low, const Vector3d& high) {
  return shapes::box(low, high);
}

/// A box with a round hole along z through its middle, open at both ends: a tube stands for it.
TriangleMesh block(double holeRadius) {
  return shapes::tube(9, holeRadius, 0, 6, 32);
}

// Closed form: pin of 2 mm radius in a hole of 2.2: 0.4 mm on the diameter between corners; the
// hole's chords stand 2.2 (1 - cos(pi / 32)) into it.
TEST(RigSuggestion, ALoosePinInAHoleIsAHingeHoweverItStands) {
  std::mt19937_64 random(kRigSeed);
  RecordProperty("seed", static_cast<int>(kRigSeed));
  for (int i = 0; i < 8; ++i) {
    const Pose X = shapes::randomPose(random, 60);
    const RigSuggestion found =
        suggested(rigParts({{"body", block(2.2)}, {"wheel", shapes::cylinder(2, -3, 9, 32)}}, X));
    ASSERT_EQ(found.joints.size(), 1u);
    const JointChoice& best = found.joints[0].best;
    EXPECT_EQ(best.joint.type, JointType::hinge);
    EXPECT_EQ(best.joint.parent, PartId{0});
    EXPECT_EQ(best.joint.child, PartId{1});
    EXPECT_LT(lineDistance(best.joint, X.translation()), 1e-6);
    EXPECT_NEAR(std::abs(best.joint.along.dot(X.linear() * kZ)), 1, 1e-12);
    const double guaranteed = 2 * (2.2 * std::cos(kPi / 32) - 2);
    ASSERT_TRUE(best.joint.fitMm);
    EXPECT_LE(*best.joint.fitMm, guaranteed);
    EXPECT_GT(*best.joint.fitMm, guaranteed - 0.05);
    ASSERT_EQ(best.joint.zones.size(), 1u);
    EXPECT_GT(best.joint.zones[0].radiusMm, 2.2);
    EXPECT_NE(best.reason.find("pin 4.00 mm in hole 4.40 mm"), std::string::npos) << best.reason;
    EXPECT_NE(best.reason.find("clearance 0.40"), std::string::npos) << best.reason;
  }
}

TEST(RigSuggestion, ATightPinIsFastAndCanBeMadeAHinge) {
  const RigSuggestion found =
      suggested(rigParts({{"body", block(2.05)}, {"pin", shapes::cylinder(2, -1, 7, 32)}}));
  ASSERT_EQ(found.joints.size(), 1u);
  EXPECT_EQ(found.joints[0].best.joint.type, JointType::fixed);
  EXPECT_EQ(found.joints[0].best.joint.name, "pin in body");
  ASSERT_FALSE(found.joints[0].others.empty());
  EXPECT_EQ(found.joints[0].others[0].joint.type, JointType::hinge);
}

TEST(RigSuggestion, APinBetweenTwoPartsIsFastInOneAndTurnsInTheOther) {
  for (const double tight : {2.05, 2.25}) {  // Pressed, or loose in both.
    const RigSuggestion found = suggested(rigParts({{"body", shapes::tube(9, tight, 0, 4, 32)},
                                                    {"arm", shapes::tube(8, 2.25, 4.4, 8, 32)},
                                                    {"pin", shapes::cylinder(2, 0, 8, 32)}}));
    ASSERT_EQ(found.joints.size(), 2u);
    EXPECT_EQ(found.joints[0].best.joint.child, PartId{2});
    EXPECT_EQ(found.joints[0].best.joint.type, JointType::fixed);
    EXPECT_EQ(found.joints[1].best.joint.child, PartId{1});
    EXPECT_EQ(found.joints[1].best.joint.parent, PartId{2});
    EXPECT_EQ(found.joints[1].best.joint.type, JointType::hinge);
    EXPECT_EQ(found.joints[1].best.joint.name, "arm to body");
  }
}

TEST(RigSuggestion, ABallInASocketIsABallJoint) {
  // A socket: a hollow ball, open where its stud comes out.
  TriangleMesh socket =
      shapes::joined({shapes::sphere(6, 3), shapes::reversed(shapes::sphere(3.7, 3))});
  std::erase_if(socket.triangles, [&](const Triangle& t) {
    return socket.vertices[t[0]].z() > 3 || socket.vertices[t[1]].z() > 3;
  });
  std::mt19937_64 random(kRigSeed + 1);
  for (int i = 0; i < 5; ++i) {
    const Pose X = shapes::randomPose(random, 60);
    const RigSuggestion found =
        suggested(rigParts({{"body", shapes::sphere(3.4, 3)}, {"arm", socket}}, X));
    ASSERT_EQ(found.joints.size(), 1u);
    const Joint& joint = found.joints[0].best.joint;
    EXPECT_EQ(joint.type, JointType::ball);
    EXPECT_LT((joint.through - X.translation()).norm(), 1e-6);
    ASSERT_EQ(joint.zones.size(), 1u);
    EXPECT_GT(joint.zones[0].radiusMm, 3.7);
  }
}

// Spheres of three halvings have flats up to 0.05 inside their corners; a socket 0.1 narrower than its
// ball grips it, one that is 1 narrower is a fault.
TEST(RigSuggestion, ASocketThatGripsItsBallIsMeantTo) {
  const auto fitOf = [](double socketRadius) {
    TriangleMesh socket =
        shapes::joined({shapes::sphere(6, 4), shapes::reversed(shapes::sphere(socketRadius, 4))});
    std::erase_if(socket.triangles, [&](const Triangle& t) {
      return socket.vertices[t[0]].z() > 3 || socket.vertices[t[1]].z() > 3;
    });
    const RigSuggestion found = suggested(
        rigParts({{"body", shapes::sphere(3.4, 4)}, {"arm", socket}}, Pose::Identity()));
    return found.joints.empty() ? std::nullopt : found.joints[0].best.joint.fitMm;
  };
  const auto gripping = fitOf(3.36);
  ASSERT_TRUE(gripping.has_value());
  EXPECT_LE(*gripping, -0.08);
  EXPECT_GE(*gripping, -0.2);
  EXPECT_FALSE(fitOf(2.9).has_value());
}

/// A channel along x with a bar in it, 0.3 mm clear of four walls.
std::vector<NamedMesh> barInChannel(double barFrom, double barTo) {
  return {{"body",
           shapes::joined(
               {shiftedBox({-20, -6, -2}, {20, 6, 0}), shiftedBox({-20, -6, 0}, {20, -3.3, 4.6}),
                shiftedBox({-20, 3.3, 0}, {20, 6, 4.6}), shiftedBox({-20, -6, 4.6}, {20, 6, 6})})},
          {"bar", shiftedBox({barFrom, -3, 0.3}, {barTo, 3, 4.3})}};
}

TEST(RigSuggestion, ABarInAChannelSlidesAlongItHoweverItStands) {
  std::mt19937_64 random(kRigSeed + 2);
  for (int i = 0; i < 5; ++i) {
    const Pose X = shapes::randomPose(random, 60);
    const RigSuggestion found = suggested(rigParts(barInChannel(-8, 8), X));
    ASSERT_EQ(found.joints.size(), 1u);
    EXPECT_EQ(found.joints[0].best.joint.type, JointType::slide);
    EXPECT_NEAR(std::abs(found.joints[0].best.joint.along.dot(X.linear().col(0))), 1, 1e-9);
  }
}

TEST(RigSuggestion, ASlideLeadsAwayFromItsStop) {
  std::vector<NamedMesh> parts = barInChannel(-19.9, -4);
  parts[0].mesh = shapes::joined({parts[0].mesh, shiftedBox({-22, -6, -2}, {-20, 6, 6})});
  const RigSuggestion found = suggested(rigParts(parts));
  ASSERT_EQ(found.joints.size(), 1u);
  EXPECT_EQ(found.joints[0].best.joint.type, JointType::slide);
  EXPECT_NEAR(found.joints[0].best.joint.along.x(), 1, 1e-9);
}

TEST(RigSuggestion, APaneInItsFrameIsFixed) {
  const RigSuggestion found = suggested(rigParts(
      {{"frame",
        shapes::joined({shiftedBox({0, 0, 0}, {12, 9, 1}), shiftedBox({0, 0, 1}, {1, 9, 3}),
                        shiftedBox({11, 0, 1}, {12, 9, 3}), shiftedBox({1, 0, 1}, {11, 1, 3}),
                        shiftedBox({1, 8, 1}, {11, 9, 3})})},
       {"pane", shiftedBox({1.1, 1.1, 1.1}, {10.9, 7.9, 3})}}));
  ASSERT_EQ(found.joints.size(), 1u);
  EXPECT_EQ(found.joints[0].best.joint.type, JointType::fixed);
}

TEST(RigSuggestion, TelescopeAtItsStopSlidesInAndCanBeMadeAHinge) {
  // A flanged tube under a ring: like a funnel that sinks into a hull.
  const TriangleMesh body =
      shapes::joined({shapes::tube(9, 4, 0, 16, 32), shapes::tube(9, 3.35, 16, 18, 32)});
  const TriangleMesh plug =
      shapes::joined({shapes::cylinder(3.6, 14.4, 15.9, 32), shapes::cylinder(3, 15.9, 30, 32)});
  const RigSuggestion found = suggested(rigParts({{"body", body}, {"plug", plug}}));
  ASSERT_EQ(found.joints.size(), 1u);
  EXPECT_EQ(found.joints[0].best.joint.type, JointType::slide);
  EXPECT_NEAR(found.joints[0].best.joint.along.z(), -1, 1e-9);
  ASSERT_FALSE(found.joints[0].others.empty());
  EXPECT_EQ(found.joints[0].others[0].joint.type, JointType::hinge);
}

TEST(RigSuggestion, BoxesSideBySideAndABoltHeadNearAWallAreNoJoints) {
  const auto apart = suggested(rigParts(
      {{"a", shiftedBox({0, 0, 0}, {10, 10, 10})}, {"b", shiftedBox({10.4, 0, 0}, {20, 10, 10})}}));
  EXPECT_TRUE(apart.joints.empty());
  const auto corner =
      suggested(rigParts({{"a", shapes::joined({shiftedBox({0, 0, 0}, {20, 20, 2}),
                                                shiftedBox({0, 0, 2}, {2, 20, 20})})},
                          {"b", shiftedBox({2.3, 3, 2.3}, {9, 12, 9})}}));
  for (const SuggestedJoint& joint : corner.joints) {
    EXPECT_EQ(joint.best.joint.type, JointType::fixed);
    EXPECT_LT(joint.best.strength, 0.5);
  }
  const auto bolt = suggested(rigParts(
      {{"wall", shiftedBox({0, 0, 0}, {20, 20, 2})},
       {"bolt", shapes::moved(shapes::cylinder(3, 2.5, 5, 32), translation({10, 10, 0}))}}));
  EXPECT_TRUE(bolt.joints.empty());
}

/// A wheel with `teeth` teeth: of four corners in a row two are out and two are in.
TriangleMesh gear(int teeth, double root, double tip) {
  TriangleMesh mesh = shapes::cylinder(1, 0, 5, 4 * teeth);
  for (Vector3d& p : mesh.vertices) {
    const double angle = std::atan2(p.y(), p.x()) + 2 * kPi;
    const auto corner = std::lround(angle / (2 * kPi) * 4 * teeth) % 4;
    p.head<2>() *= corner < 2 ? tip : root;
  }
  return mesh;
}

TEST(RigSuggestion, WheelsInMeshDoNotHangOnEachOther) {
  // A tooth of the left one in a gap of the right one: their middles are at 2.25 and 11.25 degrees.
  const TriangleMesh left =
      shapes::moved(gear(20, 8, 10), rotationAbout(kOrigin, kZ, radFromDeg(-2.25)));
  const TriangleMesh right =
      shapes::moved(gear(20, 8, 10), translation({18.4, 0, 0}) *
                                         rotationAbout(kOrigin, kZ, radFromDeg(180 - 11.25)));
  for (const SuggestedJoint& joint : suggested(rigParts({{"a", left}, {"b", right}})).joints) {
    EXPECT_EQ(joint.best.joint.type, JointType::fixed);
    EXPECT_LT(joint.best.strength, 0.5) << joint.best.reason;
  }
}

TEST(RigSuggestion, AMirroredPartHangsLikeTheOther) {
  Eigen::Affine3d mirror = Eigen::Affine3d::Identity();
  mirror.linear()(1, 1) = -1;
  const TriangleMesh body = shapes::joined({shapes::moved(block(2.2), translation({0, 20, 0})),
                                            shapes::moved(block(2.2), translation({0, -20, 0})),
                                            shiftedBox({-4, -12, 0}, {4, 12, 6})});
  const TriangleMesh port = shapes::moved(shapes::cylinder(2, -3, 9, 32), translation({0, 20, 0}));
  const RigSuggestion found = suggested(
      rigParts({{"body", body}, {"port", port}, {"starboard", transformed(port, mirror)}}));
  ASSERT_EQ(found.joints.size(), 2u);
  for (const SuggestedJoint& joint : found.joints) {
    EXPECT_EQ(joint.best.joint.type, JointType::hinge);
    const double side = joint.best.joint.child == PartId{1} ? 1 : -1;
    EXPECT_NEAR(joint.best.joint.through.y(), 20 * side, 1e-6);
  }
}

TEST(RigSuggestion, EmptyHolesGetThePinThatFitsThemCentredOnTheLug) {
  std::mt19937_64 random(kRigSeed + 3);
  const Pose X = shapes::randomPose(random, 40);
  std::vector<RigPart> parts = rigParts(
      {{"body",
        shapes::joined({shapes::tube(6, 2.05, 0.2, 5, 32), shapes::tube(6, 2.05, 9, 12, 32)})},
       {"arm", shapes::tube(6, 2.25, 5.4, 8.6, 32)}},
      X);
  const auto pins = rigParts({{"pin", shapes::cylinder(2, 0, 9, 32)},
                              {"thin", shapes::cylinder(1.2, 0, 9, 32)},
                              {"long", shapes::cylinder(2, 0, 30, 32)}},
                             translation({300, 0, 0}));
  parts.insert(parts.end(), pins.begin(), pins.end());
  const RigSuggestion found = suggested(parts);
  ASSERT_EQ(found.pins.size(), 1u);
  EXPECT_EQ(found.pins[0].pin, PartId{2});
  EXPECT_TRUE(found.pins[0].isFree);
  ASSERT_EQ(found.pins[0].places.size(), 1u);
  const PinPlace& place = found.pins[0].places[0];
  const Vector3d middle = place.X_WP * Vector3d(0, 0, 4.5);
  EXPECT_LT((middle - X * Vector3d(0, 0, 7)).norm(), 1e-6);  // The lug's middle.
  EXPECT_NEAR(std::abs((place.X_WP.linear() * kZ).dot(X.linear() * kZ)), 1, 1e-12);
  // Where it stands no other is wanted, and the arm hangs on it.
  parts[2].X_WP = place.X_WP;
  const RigSuggestion then = suggested(parts);
  EXPECT_TRUE(then.pins.empty());
  ASSERT_EQ(then.joints.size(), 2u);
  EXPECT_EQ(then.joints[1].best.joint.type, JointType::hinge);
}

TEST(RigSuggestion, JointsThatAreThereAreNotSuggestedAgain) {
  RigQuestion question;
  question.parts = rigParts({{"body", shapes::tube(9, 2.05, 0, 4, 32)},
                             {"arm", shapes::tube(8, 2.25, 4.4, 8, 32)},
                             {"pin", shapes::cylinder(2, 0, 8, 32)}});
  Joint there;
  there.name = "arm to body";
  there.parent = PartId{0};
  there.child = PartId{2};
  question.joints = {there};
  const RigSuggestion found = suggestRig(question);
  EXPECT_EQ(found.ground, PartId{0});
  ASSERT_EQ(found.joints.size(), 1u);
  EXPECT_EQ(found.joints[0].best.joint.child, PartId{1});
  EXPECT_EQ(found.joints[0].best.joint.name, "arm to body 2");  // The name is taken.
}

}  // namespace
}  // namespace swingroom
