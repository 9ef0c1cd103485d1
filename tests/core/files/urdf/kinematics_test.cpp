// Where the links of real robots stand, against urdfdom (which reads the file) and Orocos KDL
// (which works the poses out): neither shares a line with the code under test.
#include <gtest/gtest.h>
#include <urdf_parser/urdf_parser.h>

#include <fstream>
#include <iterator>
#include <kdl/tree.hpp>
#include <kdl/treefksolverpos_recursive.hpp>
#include <random>

#include "tests/core/files/urdf/robot_folder.h"

namespace swingroom::robots {
namespace {

/// Chains of up to 20 joints over up to 2.5 m: some 1e-12 mm of rounding for each joint in either
/// way, the file's directions of joints rounded to 1e-14 (2.5e-11 mm at the far end of 2.5 m).
constexpr double kSameMm = 1e-9;
constexpr double kSameTurn = 1e-12;
constexpr unsigned kSeed = 20261126;

KDL::Frame frameOf(const urdf::Pose& pose) {
  double x = 0, y = 0, z = 0, w = 1;
  pose.rotation.getQuaternion(x, y, z, w);
  return {KDL::Rotation::Quaternion(x, y, z, w),
          KDL::Vector(pose.position.x, pose.position.y, pose.position.z)};
}

KDL::Joint jointOf(const urdf::Joint& joint) {
  const KDL::Frame F = frameOf(joint.parent_to_joint_origin_transform);
  const KDL::Vector axis = F.M * KDL::Vector(joint.axis.x, joint.axis.y, joint.axis.z);
  switch (joint.type) {
    case urdf::Joint::REVOLUTE:
    case urdf::Joint::CONTINUOUS:
      return KDL::Joint(joint.name, F.p, axis, KDL::Joint::RotAxis);
    case urdf::Joint::PRISMATIC:
      return KDL::Joint(joint.name, F.p, axis, KDL::Joint::TransAxis);
    default:
      return KDL::Joint(joint.name, KDL::Joint::Fixed);
  }
}

void grow(const urdf::Link& link, KDL::Tree& tree) {
  for (const auto& child : link.child_links) {
    const urdf::Joint& joint = *child->parent_joint;
    tree.addSegment(
        KDL::Segment(child->name, jointOf(joint), frameOf(joint.parent_to_joint_origin_transform)),
        link.name);
    grow(*child, tree);
  }
}

/// The robot as urdfdom and KDL have it.
class Judge {
 public:
  explicit Judge(const std::filesystem::path& file)
      : model_(urdf::parseURDFFile(file.string())), tree_(model_->getRoot()->name) {
    grow(*model_->getRoot(), tree_);
  }

  /// Pose of each link in the root's frame, mm.
  /// @param values  Joint -> radians or metres; others at 0.
  std::map<std::string, Pose> poses(const std::map<std::string, double>& values) const {
    KDL::JntArray q(tree_.getNrOfJoints());
    for (const auto& [name, segment] : tree_.getSegments()) {
      const auto value = values.find(segment.segment.getJoint().getName());
      if (value != values.end()) q(segment.q_nr) = value->second;
    }
    KDL::TreeFkSolverPos_recursive solver(tree_);
    std::map<std::string, Pose> poses;
    for (const auto& [name, link] : model_->links_) {
      KDL::Frame F;
      EXPECT_GE(solver.JntToCart(q, F, name), 0);
      poses[name] = poseOf(F);
    }
    return poses;
  }

  const urdf::ModelInterface& model() const { return *model_; }

  static Pose poseOf(const KDL::Frame& F) {
    Pose X = Pose::Identity();
    for (int row = 0; row < 3; ++row) {
      for (int column = 0; column < 3; ++column) X.linear()(row, column) = F.M(row, column);
      X.translation()[row] = 1000 * F.p(row);
    }
    return X;
  }

 private:
  urdf::ModelInterfaceSharedPtr model_;
  KDL::Tree tree_;
};

bool movesFreely(const urdf::Joint& joint) {
  return !joint.mimic &&
         (joint.type == urdf::Joint::REVOLUTE || joint.type == urdf::Joint::CONTINUOUS ||
          joint.type == urdf::Joint::PRISMATIC);
}

/// A value within the joint's limits, radians or metres.
double anyValue(const urdf::Joint& joint, std::mt19937& random) {
  const bool limited = joint.limits && joint.type != urdf::Joint::CONTINUOUS;
  const double least = limited ? joint.limits->lower : -3;
  const double most = limited ? joint.limits->upper : 3;
  return std::uniform_real_distribution<double>(least, most)(random);
}

std::map<std::string, double> anyValues(const urdf::ModelInterface& model, std::mt19937& random) {
  std::map<std::string, double> values;
  for (const auto& [name, joint] : model.joints_) {
    if (movesFreely(*joint)) values[name] = anyValue(*joint, random);
  }
  for (const auto& [name, joint] : model.joints_) {
    if (!joint->mimic) continue;
    values[name] =
        joint->mimic->multiplier * values.at(joint->mimic->joint_name) + joint->mimic->offset;
  }
  return values;
}

/// In the assembly's units: radians and mm.
Configuration configurationOf(const Assembly& assembly,
                              const std::map<std::string, double>& values) {
  Configuration configuration = assembly.home();
  for (const auto& [name, value] : values) {
    const JointId id = *assembly.findJoint(name);
    const bool slide = assembly.joint(id).type == JointType::slide;
    configuration.values[id.index] = {slide ? 1000 * value : value, 0, 0};
  }
  return configuration;
}

/// Where the part of each link that it is named after is moved, against the judge.
void expectSamePoses(const ReadRobot& robot, const Judge& judge, unsigned count) {
  std::mt19937 random(kSeed);
  const Assembly& assembly = robot.loaded.assembly;
  const auto home = judge.poses({});
  for (const Part& part : assembly.parts()) {
    // A part without a mesh stands where its link does; others where their shape does.
    if (part.mesh || !home.contains(part.name)) continue;
    EXPECT_LT((part.X_WP_home.matrix() - home.at(part.name).matrix()).norm(), kSameMm) << part.name;
  }
  double worst = 0;
  for (unsigned i = 0; i < count; ++i) {
    const auto values = anyValues(judge.model(), random);
    const auto poses = judge.poses(values);
    const auto moved = displacementsOf(assembly, configurationOf(assembly, values));
    for (const auto& [name, X_WL] : poses) {
      const PartId part = *assembly.findPart(name);
      const Pose ours = moved[part.index] * home.at(name);
      worst = std::max(worst, (ours.translation() - X_WL.translation()).norm());
      EXPECT_LT((ours.translation() - X_WL.translation()).norm(), kSameMm) << name;
      EXPECT_LT((ours.linear() - X_WL.linear()).norm(), kSameTurn) << name;
    }
    if (::testing::Test::HasFailure()) return;
  }
  std::printf("seed %u, %u poses of %zu links: off by up to %.2g mm\n", kSeed, count, home.size(),
              worst);
}

class RealArm : public ::testing::TestWithParam<const char*> {};

TEST_P(RealArm, StandsWhereUrdfdomAndKdlPutIt) {
  const std::filesystem::path file = kDart / GetParam();
  const RobotFolder folder;
  const ReadRobot robot = readWell(file, folder / "robot.swing.json");
  const Judge judge(file);
  ASSERT_EQ(robot.made.document.joints.size(), judge.model().joints_.size() +
                                                   robot.made.document.parts.size() -
                                                   judge.model().links_.size());
  expectSamePoses(robot, judge, 50);
}

INSTANTIATE_TEST_SUITE_P(DartDoc, RealArm,
                         ::testing::Values("urdf/wam/wam.urdf", "urdf/KR5/KR5 sixx R650.urdf",
                                           "urdf/drchubo/drchubo.urdf",
                                           "sdf/atlas/atlas_v3_no_head.urdf",
                                           "urdf/test/joint_properties.urdf"));

/// Corners of a binary STL (80 bytes heading, count, 50 bytes a triangle), its numbers as they are.
std::vector<Vector3d> cornersOfStl(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  const std::string bytes((std::istreambuf_iterator<char>(in)), {});
  std::vector<Vector3d> corners;
  for (std::size_t at = 84; at + 50 <= bytes.size(); at += 50) {
    float v[9];
    std::memcpy(v, bytes.data() + at + 12, sizeof v);
    for (int i = 0; i < 9; i += 3) corners.emplace_back(v[i], v[i + 1], v[i + 2]);
  }
  return corners;
}

/// Each mesh, not only its frame: its box, with every joint somewhere, from the file's own bytes.
TEST(RealArmMeshes, StandWhereTheFilesBytesPutThem) {
  const std::filesystem::path file = kDart / "urdf/KR5/KR5 sixx R650.urdf";
  const RobotFolder folder;
  const ReadRobot robot = readWell(file, folder / "robot.swing.json");
  const Judge judge(file);
  std::mt19937 random(kSeed);
  const auto values = anyValues(judge.model(), random);
  const auto poses = judge.poses(values);
  const Assembly& assembly = robot.loaded.assembly;
  const auto ours = posesOf(assembly, configurationOf(assembly, values));
  int meshes = 0;
  for (const auto& [name, link] : judge.model().links_) {
    if (!link->visual) continue;
    ++meshes;
    const auto& mesh = dynamic_cast<const urdf::Mesh&>(*link->visual->geometry);
    const Pose X_WV = poses.at(name) * Judge::poseOf(frameOf(link->visual->origin));
    Eigen::AlignedBox3d wanted, found;
    for (const Vector3d& p : cornersOfStl(file.parent_path() / mesh.filename)) {
      wanted.extend(X_WV * Vector3d(1000 * p));
    }
    const PartId part = *assembly.findPart(name);
    for (const Vector3d& p : assembly.part(part).mesh->vertices) found.extend(ours[part.index] * p);
    EXPECT_LT((wanted.min() - found.min()).norm(), kSameMm) << name;
    EXPECT_LT((wanted.max() - found.max()).norm(), kSameMm) << name;
  }
  EXPECT_EQ(meshes, 7);
}

/// What no robot of the package has: slides, skew axes, followers, turned origins.
const std::string kOdd = R"(
<link name="base"/><link name="mast"/><link name="carriage"/><link name="wrist"/>
<link name="left"/><link name="right"/><link name="wheel"/>
<joint name="turn" type="continuous"><parent link="base"/><child link="mast"/>
  <origin xyz="0.1 -0.2 0.3" rpy="0.4 -1.1 2.5"/><axis xyz="1 2 -2"/></joint>
<joint name="lift" type="prismatic"><parent link="mast"/><child link="carriage"/>
  <origin xyz="0 0.05 0.4" rpy="3 0.2 -0.7"/><axis xyz="0.3 -0.1 0.9"/>
  <limit lower="-0.25" upper="0.6" effort="1" velocity="1"/></joint>
<joint name="bend" type="revolute"><parent link="carriage"/><child link="wrist"/>
  <origin xyz="0.31 0 0" rpy="0 1.570796 0"/>
  <limit lower="-1" upper="2" effort="1" velocity="1"/></joint>
<joint name="grip left" type="prismatic"><parent link="wrist"/><child link="left"/>
  <origin xyz="0.02 0.01 0"/><axis xyz="0 1 0"/><limit lower="0" upper="0.04" effort="1" velocity="1"/></joint>
<joint name="grip right" type="prismatic"><parent link="wrist"/><child link="right"/>
  <origin xyz="0.02 -0.01 0"/><axis xyz="0 -1 0"/><limit lower="-1" upper="1" effort="1" velocity="1"/>
  <mimic joint="grip left" multiplier="1.5" offset="0.002"/></joint>
<joint name="cable" type="revolute"><parent link="base"/><child link="wheel"/>
  <origin xyz="0 0 0.9" rpy="0 0 1"/><axis xyz="0 1 0"/><limit lower="-50" upper="50" effort="1" velocity="1"/>
  <mimic joint="lift" multiplier="-20" offset="0.25"/></joint>)";

TEST(OddRobot, SlidesSkewAxesAndFollowersStandWhereUrdfdomAndKdlPutThem) {
  const RobotFolder folder;
  folder.write("odd.urdf", robotText(kOdd));
  const ReadRobot robot = readWell(folder / "odd.urdf", folder / "odd.swing.json");
  expectSamePoses(robot, Judge(folder / "odd.urdf"), 200);
}

/// The wheel turns -20 rad a metre: -20 * (180 / pi) / 1000 degrees a mm; 0.25 rad ahead.
TEST(OddRobot, FollowersAreWrittenInDegreesAndMillimetres) {
  const RobotFolder folder;
  folder.write("odd.urdf", robotText(kOdd));
  const ReadRobot robot = readWell(folder / "odd.urdf", folder / "odd.swing.json");
  const DocumentFollows& wheel = *robot.joint("cable").follows;
  EXPECT_EQ(wheel.joint, "lift");
  EXPECT_NEAR(wheel.ratio, -20 * 180 / 3.14159265358979 / 1000, 1e-12);
  EXPECT_NEAR(wheel.offset, 0.25 * 180 / 3.14159265358979, 1e-11);
  const DocumentFollows& right = *robot.joint("grip right").follows;
  EXPECT_EQ(right.joint, "grip left");
  EXPECT_DOUBLE_EQ(right.ratio, 1.5);
  EXPECT_DOUBLE_EQ(right.offset, 2);
}

TEST(OddRobot, LimitsAreWrittenInDegreesAndMillimetres) {
  const RobotFolder folder;
  folder.write("odd.urdf", robotText(kOdd));
  const ReadRobot robot = readWell(folder / "odd.urdf", folder / "odd.swing.json");
  const auto lift = std::get<TwoNumbers>(*robot.joint("lift").range);
  EXPECT_EQ(lift, (TwoNumbers{-250, 600}));
  const auto bend = std::get<TwoNumbers>(*robot.joint("bend").range);
  EXPECT_NEAR(bend[0], -57.295779513, 1e-9);  // 1 rad.
  EXPECT_NEAR(bend[1], 114.591559026, 1e-9);
  EXPECT_FALSE(robot.joint("turn").range) << "continuous joints have no ends";
}

}  // namespace
}  // namespace swingroom::robots
