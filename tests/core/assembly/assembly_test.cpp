#include "core/assembly/assembly.h"

#include <gtest/gtest.h>

#include <limits>
#include <stdexcept>

namespace swingroom {
namespace {

const double kNaN = std::numeric_limits<double>::quiet_NaN();
const double kInfinite = std::numeric_limits<double>::infinity();

Joint hinge(std::string name, std::optional<PartId> parent, PartId child) {
  Joint joint;
  joint.name = std::move(name);
  joint.type = JointType::hinge;
  joint.parent = parent;
  joint.child = child;
  return joint;
}

/// Body and lid, a hinge between them, one rule for the two.
AssemblyParts boxWithLid() {
  AssemblyParts parts;
  parts.name = "box";
  parts.parts.resize(3);
  parts.parts[0].name = "body";
  parts.parts[1].name = "lid";
  parts.parts[2].name = "badge";
  parts.joints = {hinge("back", PartId{0}, PartId{1})};
  PairRule rule;
  rule.a = PartId{1};
  rule.b = PartId{0};
  rule.requiredGapMm = 0.1;
  parts.pairRules = {rule};
  return parts;
}

void expectRefused(void (*spoil)(AssemblyParts&), const char* what) {
  AssemblyParts parts = boxWithLid();
  spoil(parts);
  EXPECT_THROW(Assembly{parts}, std::invalid_argument) << what;
}

TEST(Assembly, TakesASoundDescription) {
  EXPECT_NO_THROW(Assembly{boxWithLid()});
}

TEST(Assembly, RefusesJointsThatNameNoPart) {
  expectRefused([](AssemblyParts& p) { p.joints[0].child = PartId{3}; }, "child");
  expectRefused([](AssemblyParts& p) { p.joints[0].parent = PartId{3}; }, "parent");
}

TEST(Assembly, RefusesAPartHungOnItself) {
  expectRefused([](AssemblyParts& p) { p.joints[0].parent = PartId{1}; }, "itself");
}

TEST(Assembly, RefusesAxesThatAreNoUnitVectors) {
  expectRefused([](AssemblyParts& p) { p.joints[0].along = {0, 0, 2}; }, "length 2");
  expectRefused([](AssemblyParts& p) { p.joints[0].along = {0, 0, 0}; }, "length 0");
  expectRefused([](AssemblyParts& p) { p.joints[0].along = {0, kNaN, 1}; }, "not a number");
  expectRefused([](AssemblyParts& p) { p.joints[0].through.x() = kInfinite; }, "infinitely far");
}

TEST(Assembly, RefusesAFollowerOfNoJoint) {
  expectRefused(
      [](AssemblyParts& p) {
        p.joints[0].follows = JointFollow{JointId{1}, 1, 0};
      },
      "leader");
}

TEST(Assembly, RefusesPairRulesThatNameNoPair) {
  expectRefused([](AssemblyParts& p) { p.pairRules[0].b = PartId{1}; }, "one part twice");
  expectRefused([](AssemblyParts& p) { p.pairRules[0].b = PartId{3}; }, "no such part");
}

TEST(Assembly, RefusesNumbersOutOfTheirDomain) {
  expectRefused([](AssemblyParts& p) { p.requiredGapMm = -0.1; }, "negative gap");
  expectRefused([](AssemblyParts& p) { p.requiredGapMm = kNaN; }, "gap not a number");
  expectRefused([](AssemblyParts& p) { p.resolutionMm = 0; }, "resolution 0");
  expectRefused([](AssemblyParts& p) { p.resolutionMm = kInfinite; }, "resolution infinite");
  expectRefused([](AssemblyParts& p) { p.pairRules[0].requiredGapMm = -0.1; },
                "a rule's negative gap");
  expectRefused([](AssemblyParts& p) { p.pairRules[0].requiredGapMm = kNaN; },
                "a rule's gap not a number");
  expectRefused([](AssemblyParts& p) { p.parts[2].X_WP_home.translation().x() = kNaN; },
                "home not a number");
}

TEST(Assembly, TakesARequiredGapOfZero) {
  AssemblyParts parts = boxWithLid();
  parts.requiredGapMm = 0;
  EXPECT_NO_THROW(Assembly{parts});
}

TEST(Assembly, FindsPartsAndJointsByName) {
  const Assembly assembly(boxWithLid());
  EXPECT_EQ(assembly.findPart("lid"), PartId{1});
  EXPECT_EQ(assembly.findPart("Lid"), std::nullopt);
  EXPECT_EQ(assembly.findJoint("back"), JointId{0});
  EXPECT_EQ(assembly.findJoint("front"), std::nullopt);
}

TEST(Assembly, ARuleHoldsEitherWayRound) {
  const Assembly assembly(boxWithLid());
  ASSERT_NE(assembly.ruleFor(PartId{0}, PartId{1}), nullptr);
  EXPECT_EQ(assembly.ruleFor(PartId{0}, PartId{1}), assembly.ruleFor(PartId{1}, PartId{0}));
  EXPECT_EQ(assembly.ruleFor(PartId{0}, PartId{2}), nullptr);
}

// product.md 3: `requiredGap` of a pair, else of the assembly, which defaults to 0.3 mm.
TEST(Assembly, PairsWithoutARuleTakeTheAssemblysRequiredGap) {
  AssemblyParts parts = boxWithLid();
  PairRule silent;
  silent.a = PartId{1};
  silent.b = PartId{2};
  parts.pairRules.push_back(silent);
  const Assembly assembly(parts);
  EXPECT_EQ(assembly.requiredGapMm(PartId{0}, PartId{1}), 0.1);
  EXPECT_EQ(assembly.requiredGapMm(PartId{0}, PartId{2}), 0.3);
  EXPECT_EQ(assembly.requiredGapMm(PartId{1}, PartId{2}), 0.3);
}

TEST(Assembly, AtHomeEveryJointIsAtZeroAndEveryPartWhereItWasPut) {
  AssemblyParts parts = boxWithLid();
  parts.parts[1].X_WP_home = translation({1, 2, 3});
  parts.joints[0].through = {5, 0, 0};
  const Assembly assembly(parts);
  const Configuration home = assembly.home();
  EXPECT_EQ(home.values, std::vector<JointValue>(1, JointValue::Zero()));
  EXPECT_EQ(home.mounts, std::vector<std::size_t>(3, 0));
  const std::vector<Pose> poses = posesOf(assembly, home);
  ASSERT_EQ(poses.size(), 3u);
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_TRUE(poses[i].isApprox(assembly.part(PartId{i}).X_WP_home, 1e-15)) << "part " << i;
  }
}

TEST(Assembly, JointsToOneParentAreOneMountAndToSeveralAreSeveral) {
  AssemblyParts parts = boxWithLid();
  parts.joints = {hinge("a", PartId{0}, PartId{2}), hinge("b", PartId{1}, PartId{2}),
                  hinge("c", PartId{0}, PartId{2}), hinge("d", std::nullopt, PartId{2})};
  const Assembly assembly(parts);
  EXPECT_TRUE(assembly.mountsOf(PartId{0}).empty());
  const std::vector<Mount>& mounts = assembly.mountsOf(PartId{2});
  ASSERT_EQ(mounts.size(), 3u);
  EXPECT_EQ(mounts[0].parent, PartId{0});
  EXPECT_EQ(mounts[0].joints, (std::vector{JointId{0}, JointId{2}}));
  EXPECT_EQ(mounts[1].parent, PartId{1});
  EXPECT_EQ(mounts[1].joints, std::vector{JointId{1}});
  EXPECT_EQ(mounts[2].parent, std::nullopt);
  EXPECT_EQ(mounts[2].joints, std::vector{JointId{3}});
}

}  // namespace
}  // namespace swingroom
