#include "core/motion/joint_inference.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <stdexcept>

#include "core/motion/registration.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

using shapes::box;
using shapes::cylinder;
using shapes::joined;
using shapes::moved;
using shapes::tube;

constexpr unsigned kInferenceSeed = 20240612;
constexpr double kRequiredGapMm = 0.3;

/// Parts in two modes as their float files would have them, registered as the program does it.
class Modes {
 public:
  void add(const std::string& name, const TriangleMesh& mesh, const Pose& D = Pose::Identity()) {
    names_.push_back(name);
    first_.push_back(asWritten(mesh));
    second_.push_back(asWritten(moved(mesh, D)));
  }

  InferredMotion infer(unsigned threads = 1) {
    parts_.clear();
    for (std::size_t i = 0; i < names_.size(); ++i) {
      const auto found = registerPart(names_[i], first_[i], second_[i]);
      if (!found.ok()) throw std::runtime_error(toText(found.problems().front()));
      parts_.push_back({names_[i], &first_[i], found->D, found->alternatives});
    }
    return inferJoints(parts_, kRequiredGapMm, threads);
  }

  std::string name(const std::optional<PartId>& part) const {
    return part ? names_[part->index] : "ground";
  }

 private:
  static TriangleMesh asWritten(TriangleMesh mesh) {
    for (Vector3d& v : mesh.vertices) v = v.cast<float>().cast<double>();
    return mesh;
  }

  std::vector<std::string> names_;
  std::vector<TriangleMesh> first_, second_;
  std::vector<PartInTwoModes> parts_;
};

const InferredJoint* jointOf(const InferredMotion& motion, const std::string& name) {
  for (const InferredJoint& joint : motion.joints) {
    if (joint.joint.name == name) return &joint;
  }
  return nullptr;
}

double distanceFromLine(const Vector3d& p, const Vector3d& through, const Vector3d& along) {
  return along.cross(p - through).norm();
}

// The product's promise: axes right within 0.01 mm and 0.01 degrees. The line may be said by any of
// its points, its direction is the one about which the angle is positive.
void expectHinge(const InferredMotion& motion, const Modes& modes, const std::string& child,
                 const std::string& parent, const Vector3d& through, const Vector3d& along,
                 double angleDeg) {
  const InferredJoint* joint = jointOf(motion, child + " hinge");
  ASSERT_NE(joint, nullptr) << child;
  EXPECT_EQ(joint->joint.type, JointType::hinge);
  EXPECT_EQ(modes.name(joint->joint.parent), parent) << child;
  EXPECT_EQ(modes.name(joint->joint.child), child);
  EXPECT_LT(distanceFromLine(joint->joint.through, through, along), 0.01) << child;
  EXPECT_LT(degFromRad(std::acos(std::min(1.0, joint->joint.along.dot(along)))), 0.01) << child;
  EXPECT_NEAR(degFromRad(joint->value.x()), angleDeg, 0.01) << child;
}

/// A link along x: an eye about z at the origin, z 0 to 4, and a pin at x = `length` that stands up
/// to z 8.2. The next link lies on it, 4.4 higher, with its eye about that pin: clearance 0.4.
TriangleMesh link(double length) {
  return joined({tube(5, 2.2, 0, 4, 32), box({4.5, -2.5, 0}, {length + 3, 2.5, 4}),
                 moved(cylinder(2, 3, 8.2, 32), translation({length, 0, 0}))});
}

/// Four links, one on the other, from joint angles (0: along x) about z.
struct Chain {
  std::vector<double> lengths{30, 25, 35, 20};

  std::vector<Pose> poses(const std::vector<double>& anglesDeg) const {
    std::vector<Pose> X;
    Pose at = Pose::Identity();
    for (std::size_t i = 0; i < lengths.size(); ++i) {
      if (i > 0) {
        at = at * translation({lengths[i - 1], 0, 4.4}) *
             rotationAbout(Vector3d::Zero(), kZ, radFromDeg(anglesDeg[i - 1]));
      }
      X.push_back(at);
    }
    return X;
  }
};

TEST(JointInference, ChainOfThreeParallelHingesFindsItsParentsAndAxes) {
  std::mt19937_64 random(kInferenceSeed);
  RecordProperty("seed", kInferenceSeed);
  const Chain chain;
  for (int i = 0; i < 10; ++i) {
    const Pose X_WA = shapes::randomPose(random, 50);
    const auto first = chain.poses({150, -120, 90}), second = chain.poses({20, 35, -10});
    const char* names[] = {"a", "b", "c", "d"};
    Modes modes;
    for (std::size_t k = 0; k < 4; ++k) {
      const Pose D = X_WA * second[k] * first[k].inverse() * X_WA.inverse();
      modes.add(names[k], moved(link(chain.lengths[k]), X_WA * first[k]), D);
    }
    const InferredMotion motion = modes.infer();
    ASSERT_EQ(motion.joints.size(), 3u);
    EXPECT_TRUE(motion.groups.takenOff.empty());
    const double turnsDeg[] = {-130, 155, -100};
    for (std::size_t k = 1; k < 4; ++k) {
      const double turn = turnsDeg[k - 1];
      const Vector3d along = X_WA.linear() * kZ * (turn < 0 ? -1 : 1);
      expectHinge(motion, modes, names[k], names[k - 1], X_WA * first[k].translation(), along,
                  std::abs(turn));
      EXPECT_EQ(jointOf(motion, std::string(names[k]) + " hinge")->reason, JointReason::held);
    }
    if (HasFailure()) FAIL() << "seed " << kInferenceSeed << ", " << i;
  }
}

// The eye, z 4.4 to 8.4, holds the pin up to z 8.2: 3.8 mm. The hole's radius is 2.2.
TEST(JointInference, ZoneHoldsThePinInItsHoleAndHalfAMillimetreMore) {
  const Chain chain;
  const auto first = chain.poses({0, 0, 0}), second = chain.poses({40, 0, 0});
  Modes modes;
  for (std::size_t k = 0; k < 2; ++k) {
    modes.add(k ? "b" : "a", moved(link(30), first[k]), second[k] * first[k].inverse());
  }
  const InferredMotion motion = modes.infer();
  ASSERT_EQ(motion.joints.size(), 1u);
  const Joint& joint = motion.joints[0].joint;
  ASSERT_EQ(joint.zones.size(), 1u);
  EXPECT_NEAR(joint.zones[0].radiusMm, 2.7, 1e-3);
  EXPECT_NEAR((joint.through + joint.zones[0].fromMm * joint.along).z(), 3.9, 1e-3);
  EXPECT_NEAR((joint.through + joint.zones[0].toMm * joint.along).z(), 8.7, 1e-3);
  ASSERT_EQ(motion.joints[0].pins.size(), 1u);
  EXPECT_TRUE(motion.joints[0].pins[0].pinIsFirst);
  EXPECT_NEAR(motion.joints[0].pins[0].leastGapMm, 0.2 - shapes::sagitta(2.2, 32), 1e-3);
  EXPECT_TRUE(motion.touching.empty());
  EXPECT_TRUE(motion.otherPins.empty());
}

// A pin through two cheeks and the tongue between them, pressed into the cheeks: one piece of
// hinge, two parts that do not move against each other.
TEST(JointInference, PinPressedIntoTheForkCarriesTheTongue) {
  const TriangleMesh fork = joined(
      {tube(6, 2.02, 0, 4, 48), tube(6, 2.02, 10, 14, 48), box({-20, -6, 0}, {-5.5, 6, 14})});
  const TriangleMesh tongue =
      joined({tube(5, 2.2, 4.4, 9.6, 48), box({4.5, -3, 4.4}, {40, 3, 9.6})});
  Modes modes;
  modes.add("fork", fork);
  modes.add("pin", cylinder(2, -1, 15, 48));
  modes.add("tongue", tongue, rotationAbout(Vector3d::Zero(), kZ, radFromDeg(75)));
  const InferredMotion motion = modes.infer();
  ASSERT_EQ(motion.joints.size(), 2u);
  const InferredJoint* fixed = jointOf(motion, "pin fixed");
  ASSERT_NE(fixed, nullptr);
  EXPECT_EQ(modes.name(fixed->joint.parent), "fork");
  expectHinge(motion, modes, "tongue", "pin", Vector3d::Zero(), kZ, 75);
  EXPECT_TRUE(motion.touching.empty());
}

TEST(JointInference, SliderInARailSlidesOnTheRail) {
  const TriangleMesh rail = joined(
      {box({0, 0, 0}, {60, 20, 3}), box({0, 0, 3}, {60, 3, 12}), box({0, 17, 3}, {60, 20, 12})});
  const TriangleMesh slider = box({2, 3.4, 3.4}, {22, 16.6, 10});
  const TriangleMesh knob = box({8, 8, 9.9}, {14, 12, 30});
  const Vector3d along(0.8, 0.6, 0);
  const Pose X_WA = rotationAbout(Vector3d::Zero(), kZ, std::atan2(0.6, 0.8));
  const Pose D = translation(along * 31);
  Modes modes;
  modes.add("knob", moved(knob, X_WA), D);
  modes.add("rail", moved(rail, X_WA));
  modes.add("slider", moved(slider, X_WA), D);
  const InferredMotion motion = modes.infer();
  const InferredJoint* slide = jointOf(motion, "slider slide");
  ASSERT_NE(slide, nullptr);
  EXPECT_EQ(modes.name(slide->joint.parent), "rail");
  EXPECT_LT(degFromRad(std::acos(std::min(1.0, slide->joint.along.dot(along)))), 0.01);
  EXPECT_NEAR(slide->value.x(), 31, 1e-3);
  const InferredJoint* fixed = jointOf(motion, "knob fixed");
  ASSERT_NE(fixed, nullptr);
  EXPECT_EQ(modes.name(fixed->joint.parent), "slider");
}

// A collar that turns and travels on a shaft: two joints on one axis.
TEST(JointInference, ScrewOnAShaftIsAHingeAndASlideOnOneAxis) {
  const TriangleMesh shaft = joined({box({-10, -10, -5}, {10, 10, 0}), cylinder(3, -1, 40, 48)});
  const TriangleMesh collar = joined({tube(7, 3.2, 5, 11, 48), box({6, -2, 5}, {20, 2, 11})});
  Modes modes;
  modes.add("collar", collar, translation({0, 0, 12}) * rotationAbout(Vector3d::Zero(), kZ, 2));
  modes.add("shaft", shaft);
  const InferredMotion motion = modes.infer();
  ASSERT_EQ(motion.joints.size(), 2u);
  expectHinge(motion, modes, "collar", "shaft", Vector3d::Zero(), kZ, degFromRad(2));
  const InferredJoint* slide = jointOf(motion, "collar slide");
  ASSERT_NE(slide, nullptr);
  EXPECT_NEAR(slide->value.x(), 12, 1e-3);
  EXPECT_LT((slide->joint.along - kZ).norm(), 1e-4);
  // The zone is where collar and shaft are in each other in both modes, as seen from each: z 5 to
  // 11 at first, 17 to 23 then.
  const Joint& hinge = jointOf(motion, "collar hinge")->joint;
  ASSERT_EQ(hinge.zones.size(), 1u);
  EXPECT_NEAR((hinge.through + hinge.zones[0].fromMm * kZ).z(), 4.5, 1e-3);
  EXPECT_NEAR((hinge.through + hinge.zones[0].toMm * kZ).z(), 23.5, 1e-3);
}

// A ball on a stick in a socket that is open below, 0.4 mm wider; turned about a line askew.
TriangleMesh socket() {
  const TriangleMesh shell =
      joined({shapes::sphere(9, 4), shapes::reversed(shapes::sphere(5.2, 4))});
  TriangleMesh open{shell.vertices, {}};
  for (const Triangle& t : shell.triangles) {
    const bool above =
        std::all_of(t.begin(), t.end(), [&](auto v) { return shell.vertices[v].z() > -2; });
    if (above) open.triangles.push_back(t);
  }
  return joined({open, box({-5, -5, 8.5}, {5, 5, 30})});
}

TEST(JointInference, BallInASocketIsABallJoint) {
  const Vector3d centre(10, 20, 30), turn = Vector3d(1, 2, 2) / 3 * radFromDeg(35);
  const TriangleMesh arm = joined({shapes::sphere(5, 4), cylinder(2, -20, -4.8, 32)});
  Modes modes;
  modes.add("arm", moved(arm, translation(centre)),
            rotationAbout(centre, turn.normalized(), turn.norm()));
  modes.add("socket", moved(socket(), translation(centre)));
  const InferredMotion motion = modes.infer();
  ASSERT_EQ(motion.joints.size(), 1u);
  const InferredJoint& joint = motion.joints[0];
  EXPECT_EQ(joint.joint.name, "arm ball");
  EXPECT_EQ(joint.joint.type, JointType::ball);
  EXPECT_EQ(modes.name(joint.joint.parent), "socket");
  EXPECT_LT((joint.joint.through - centre).norm(), 0.01);
  EXPECT_LT(degFromRad((joint.value - turn).norm()), 0.01);
  ASSERT_EQ(joint.joint.zones.size(), 1u);
  EXPECT_NEAR(joint.joint.zones[0].radiusMm, 5.7, 1e-3);
  ASSERT_TRUE(joint.ball.has_value());
  EXPECT_FALSE(joint.ball->ballIsFirst);
}

// Two bumps in two dimples, 20 mm apart, hold a hinge and no ball.
TEST(JointInference, TwoBumpsInDimplesAreAHinge) {
  const auto ball = [](double radius, double z) {
    return moved(shapes::sphere(radius, 4), translation({0, 0, z}));
  };
  Modes modes;
  modes.add("fork", joined({box({-20, -6, -16}, {-8, 6, 16}), shapes::reversed(ball(2.2, 10)),
                            shapes::reversed(ball(2.2, -10))}));
  modes.add("tongue", joined({box({-5, -5, -9}, {30, 5, 9}), ball(2, 10), ball(2, -10)}),
            rotationAbout(Vector3d::Zero(), kZ, radFromDeg(20)));
  const InferredMotion motion = modes.infer();
  expectHinge(motion, modes, "tongue", "fork", Vector3d::Zero(), kZ, 20);
  EXPECT_EQ(jointOf(motion, "tongue hinge")->joint.zones.size(), 2u);
}

// No round faces at all: two plates with 0.6 mm between them, one of which tilts up about a line in
// the middle of that, so that only nearness at the axis tells.
TEST(JointInference, HingeWithoutAPinIsFoundByNearnessAtTheAxis) {
  const Vector3d along = -Vector3d::UnitY();
  Modes modes;
  modes.add("base", box({-40, -10, 0}, {2, 10, 4}));
  modes.add("far", box({-40, -10, -30}, {60, 10, -26}));
  modes.add("lid", box({2.6, -10, 0}, {43, 10, 4}), rotationAbout({2.3, 0, 4}, along, kPi / 3));
  const InferredMotion motion = modes.infer();
  expectHinge(motion, modes, "lid", "base", {2.3, 0, 4}, along, 60);
  EXPECT_EQ(jointOf(motion, "lid hinge")->reason, JointReason::near);
}

TEST(JointInference, PartWithNothingNearHangsOnTheGround) {
  Modes modes;
  modes.add("base", box({0, 0, 0}, {40, 40, 5}));
  modes.add("far", box({0, 0, 100}, {10, 10, 110}),
            rotationAbout({20, 20, 20}, Vector3d::UnitX(), radFromDeg(30)));
  const InferredMotion motion = modes.infer();
  ASSERT_EQ(motion.joints.size(), 1u);
  expectHinge(motion, modes, "far", "ground", {0, 20, 20}, Vector3d::UnitX(), 30);
  EXPECT_EQ(motion.joints[0].reason, JointReason::nothing);
}

TEST(JointInference, IfNothingStoodStillTheLargestPartIsTheGround) {
  std::mt19937_64 random(kInferenceSeed);
  const Chain chain;
  const auto first = chain.poses({0, 0, 0}), second = chain.poses({40, 0, 0});
  const Pose away = shapes::randomPose(random, 30);
  Modes modes;
  modes.add("a", moved(link(60), first[0]), away);
  const Pose X = translation({60, 0, 4.4});
  modes.add("b", moved(link(25), X), away * rotationAbout({60, 0, 0}, kZ, radFromDeg(40)));
  const InferredMotion motion = modes.infer();
  ASSERT_EQ(motion.groups.takenOff.size(), 1u);
  EXPECT_LT((motion.groups.takenOff[0].matrix() - away.matrix()).norm(), 1e-3);
  ASSERT_EQ(motion.joints.size(), 1u);
  expectHinge(motion, modes, "b", "a", {60, 0, 0}, kZ, 40);
}

// Both legs swing by the same angle about the same line, each on a pin of its own.
TEST(JointInference, TwoLegsThatSwingAlikeHaveTwoJoints) {
  const TriangleMesh body = joined({box({-10, -10, -10}, {10, 10, 10}), cylinder(2, -16, 16, 32)});
  const TriangleMesh leg = joined({tube(5, 2.2, 0, 5, 32), box({-4, -40, 0}, {4, -4.5, 5})});
  const Pose D = rotationAbout(Vector3d::Zero(), kZ, radFromDeg(80));
  Modes modes;
  modes.add("body", body);
  modes.add("left", moved(leg, translation({0, 0, 10.4})), D);
  modes.add("right", moved(leg, translation({0, 0, -15.4})), D);
  const InferredMotion motion = modes.infer();
  ASSERT_EQ(motion.joints.size(), 2u);
  expectHinge(motion, modes, "left", "body", Vector3d::Zero(), kZ, 80);
  expectHinge(motion, modes, "right", "body", Vector3d::Zero(), kZ, 80);
}

// A parallelogram: base, two cranks, a bar that they carry. One of the four pins closes a ring.
TEST(JointInference, RingOfFourPinsIsCutAtOneAndTheOtherIsTold) {
  const TriangleMesh base = joined({box({-6, -6, -6}, {46, 6, -0.4}), cylinder(2, -1, 4, 32),
                                    moved(cylinder(2, -1, 4, 32), translation({40, 0, 0}))});
  const TriangleMesh crank = joined({tube(5, 2.2, 0, 4, 32), box({-2, 4.5, 0}, {2, 33, 4}),
                                     moved(cylinder(2, 3, 8.4, 32), translation({0, 30, 0}))});
  const TriangleMesh bar = joined({moved(tube(5, 2.2, 4.4, 8.4, 32), translation({0, 30, 0})),
                                   moved(tube(5, 2.2, 4.4, 8.4, 32), translation({40, 30, 0})),
                                   box({4.5, 28, 4.4}, {35.5, 32, 8.4})});
  const double turn = radFromDeg(50);
  const Vector3d end = rotationAbout(Vector3d::Zero(), kZ, turn) * Vector3d(0, 30, 0);
  Modes modes;
  modes.add("bar", bar, translation(end - Vector3d(0, 30, 0)));
  modes.add("base", base);
  modes.add("crank_1", crank, rotationAbout(Vector3d::Zero(), kZ, turn));
  modes.add("crank_2", moved(crank, translation({40, 0, 0})), rotationAbout({40, 0, 0}, kZ, turn));
  const InferredMotion motion = modes.infer();
  ASSERT_EQ(motion.joints.size(), 3u);
  for (const InferredJoint& joint : motion.joints) {
    EXPECT_EQ(joint.reason, JointReason::held) << joint.joint.name;
  }
  ASSERT_EQ(motion.otherPins.size(), 1u);
  EXPECT_NEAR(motion.otherPins[0].gapMm, 0.2 - shapes::sagitta(2.2, 32), 1e-3);
}

// Three blocks side by side that move as one: two joints hold them, the third pair is told.
TEST(JointInference, PartsOfOneGroupThatTouchAreJoinedOrTold) {
  Modes modes;
  modes.add("a", box({0, 0, 0}, {10, 10, 10}));
  modes.add("b", box({10, 0, 0}, {20, 10, 10}));
  modes.add("c", box({5, 10, 0}, {15, 20, 10}));
  modes.add("d", box({50, 0, 0}, {60, 10, 10}));
  const InferredMotion motion = modes.infer();
  EXPECT_EQ(motion.joints.size(), 2u);
  for (const InferredJoint& joint : motion.joints) {
    EXPECT_EQ(joint.joint.type, JointType::fixed);
    EXPECT_EQ(joint.reason, JointReason::movesAlong);
  }
  ASSERT_EQ(motion.touching.size(), 1u);
  EXPECT_EQ(motion.touching[0].gapMm, 0);
}

// The pin's triangles are shuffled, so that its own turn is lost: 32 turns and 32 flips fit. It
// moves with the arm, whose displacement is one of them.
TEST(JointInference, RoundPinWithoutFileOrderGoesWithWhatItMovesWith) {
  const Pose D = rotationAbout({0, 0, 0}, Vector3d::UnitX(), radFromDeg(30));
  const TriangleMesh pin = moved(cylinder(2, 0, 20, 32), translation({30, 0, 0}));
  TriangleMesh arm = joined({box({-5, -5, -20}, {25, 5, -5}), box({25, -3, -20}, {40, 4, -1})});
  std::vector<Pose> ways;
  for (int i = 0; i < 32; ++i) {
    ways.push_back(D * rotationAbout({30, 0, 0}, kZ, 2 * kPi * (i + 3) / 32));
  }
  const TriangleMesh base = box({-50, -50, -60}, {50, 50, -50});
  const std::vector<PartInTwoModes> parts{
      {"arm", &arm, D, {}},
      {"base", &base, Pose::Identity(), {}},
      {"pin", &pin, ways.front(), {ways.begin() + 1, ways.end()}}};
  const MotionGroups groups = groupByMotion(parts);
  ASSERT_EQ(groups.groups.size(), 2u);
  EXPECT_EQ(groups.groups[1].parts, (std::vector<std::size_t>{0, 2}));
  EXPECT_EQ(groups.chosen, (std::vector<std::size_t>{2}));
}

TEST(JointInference, IsTheSameWithOneThreadAndFour) {
  const Chain chain;
  const auto first = chain.poses({150, -120, 90}), second = chain.poses({20, 35, -10});
  Modes modes;
  for (std::size_t k = 0; k < 4; ++k) {
    modes.add(std::string(1, static_cast<char>('a' + k)), moved(link(chain.lengths[k]), first[k]),
              second[k] * first[k].inverse());
  }
  const InferredMotion one = modes.infer(1), four = modes.infer(4);
  ASSERT_EQ(one.joints.size(), four.joints.size());
  for (std::size_t i = 0; i < one.joints.size(); ++i) {
    EXPECT_EQ(one.joints[i].joint.name, four.joints[i].joint.name);
    EXPECT_EQ(one.joints[i].joint.through, four.joints[i].joint.through);
    EXPECT_EQ(one.joints[i].value, four.joints[i].value);
  }
}

TEST(JointInference, NoPartsIsACallersMistake) {
  EXPECT_THROW(inferJoints({}, kRequiredGapMm, 1), std::invalid_argument);
}

}  // namespace
}  // namespace swingroom
