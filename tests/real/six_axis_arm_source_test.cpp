// The assembly file of the arm was written by hand from the description that comes with its meshes:
// here the two are held against each other.
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <map>
#include <regex>
#include <sstream>
#include <stdexcept>

#include "tests/real/six_axis_arm.h"

namespace swingroom::real {
namespace {

/// A joint as described: metres and radians, at its place in the parent link's frame.
struct DescribedJoint {
  std::string parent, child;
  Vector3d origin = Vector3d::Zero();
  Vector3d turn = Vector3d::Zero();
  Vector3d axis = Vector3d::Zero();
  double lowerRad = 0, upperRad = 0;
};

std::string attribute(const std::string& text, const std::string& tag, const std::string& name) {
  std::smatch found;
  const std::regex wanted("<" + tag + "\\s[^>]*" + name + "=\"([^\"]*)\"");
  if (!std::regex_search(text, found, wanted)) {
    throw std::runtime_error("the description has no " + name + " of a " + tag);
  }
  return found[1];
}

Vector3d threeNumbers(const std::string& text) {
  std::istringstream stream(text);
  Vector3d numbers;
  stream >> numbers.x() >> numbers.y() >> numbers.z();
  return numbers;
}

/// The turning joints, by child link.
std::map<std::string, DescribedJoint> describedJoints() {
  std::string text;
  for (const auto& entry : std::filesystem::directory_iterator(armMeshFolder().parent_path())) {
    if (entry.path().extension() != ".urdf") continue;
    std::ifstream file(entry.path());
    text.append(std::istreambuf_iterator<char>(file), {});
  }
  std::map<std::string, DescribedJoint> joints;
  const std::regex block("<joint\\s[^]*?</joint>");
  for (std::sregex_iterator b(text.begin(), text.end(), block), end; b != end; ++b) {
    const std::string joint = b->str();
    if (attribute(joint, "joint", "type") != "revolute") continue;
    DescribedJoint& described = joints[attribute(joint, "child", "link")];
    described = {attribute(joint, "parent", "link"),
                 attribute(joint, "child", "link"),
                 threeNumbers(attribute(joint, "origin", "xyz")),
                 threeNumbers(attribute(joint, "origin", "rpy")),
                 threeNumbers(attribute(joint, "axis", "xyz")),
                 std::stod(attribute(joint, "limit", "lower")),
                 std::stod(attribute(joint, "limit", "upper"))};
  }
  return joints;
}

TEST(SixAxisArm, HangsTogetherAsItsOwnDescriptionSays) {
  const Assembly assembly = loadArm().assembly;
  const std::map<std::string, DescribedJoint> described = describedJoints();
  ASSERT_EQ(described.size(), 6u);
  ASSERT_EQ(assembly.joints().size(), 6u);
  const std::string links[] = {"base_link", "shoulder", "bicep", "elbow",
                               "forearm",   "wrist",    "palm"};
  Vector3d place = Vector3d::Zero();
  for (std::size_t i = 0; i < 6; ++i) {
    SCOPED_TRACE(links[i + 1]);
    const DescribedJoint& wanted = described.at(links[i + 1]);
    const Joint& joint = assembly.joints()[i];
    EXPECT_EQ(wanted.parent, links[i]);
    EXPECT_EQ(joint.parent, PartId{i});
    EXPECT_EQ(joint.child, PartId{i + 1});
    ASSERT_TRUE(wanted.turn.isZero()) << "places add up only where no frame is turned";
    place += 1000 * wanted.origin;
    EXPECT_LT((joint.through - place).norm(), 1e-9);
    EXPECT_LT((joint.along - wanted.axis).norm(), 1e-12);
    const Pose& X_WP = assembly.parts()[i + 1].X_WP_home;
    EXPECT_LT((X_WP.translation() - place).norm(), 1e-9);
    EXPECT_TRUE(X_WP.linear().isIdentity());
    // The file has whole degrees.
    EXPECT_NEAR(joint.range.min, wanted.lowerRad, radFromDeg(0.01));
    EXPECT_NEAR(joint.range.max, wanted.upperRad, radFromDeg(0.01));
  }
}

}  // namespace
}  // namespace swingroom::real
