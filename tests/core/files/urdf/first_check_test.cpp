// A first check of every robot of dart-doc whose meshes are there, between its two poses; what it
// says is held against single queries of FCL, in its modes and on the way.
#include <gtest/gtest.h>

#include "core/proximity/gap.h"
#include "core/report/findings.h"
#include "core/sweep/sweep.h"
#include "tests/core/files/urdf/robot_folder.h"

namespace swingroom::robots {
namespace {

/// Both work in double on coordinates of up to 2 m (25 m of a ground plate).
constexpr double kEnginesMm = 1e-5;
/// Meeting the required gap but for this is meeting it (core/sweep/track.h).
constexpr double kShortMm = 1e-4;
constexpr int kSamples = 8;
/// Farther gaps are not told apart: the queries are much quicker.
constexpr double kWithinMm = 5;

struct FirstCheck {
  const char* file;
  std::size_t links;
  std::size_t moving;  ///< Joints, by the file's own text: grep -c 'type="revolute\|continuous'.
};

void PrintTo(const FirstCheck& check, std::ostream* out) {
  *out << check.file;
}

class FirstCheckOf : public ::testing::TestWithParam<FirstCheck> {};

/// Gaps of one pair at one instant, by FCL.
class Samples {
 public:
  Samples(const Assembly& assembly, const Sequence& way) : assembly_(assembly), way_(way) {
    for (const Part& part : assembly.parts()) {
      models_.push_back(part.mesh ? std::make_shared<GapModel>(*part.mesh) : nullptr);
    }
    for (int i = 0; i <= kSamples; ++i) {
      poses_.push_back(posesOf(assembly, configurationAt(assembly, way, double(i) / kSamples)));
    }
  }

  PlacedGap at(int sample, PartId a, PartId b) const { return between(poses_[sample], a, b); }
  PlacedGap atInstant(double instant, PartId a, PartId b) const {
    return between(posesOf(assembly_, configurationAt(assembly_, way_, instant)), a, b);
  }

 private:
  PlacedGap between(const std::vector<Pose>& poses, PartId a, PartId b) const {
    return gapBetween(*models_[a.index], *models_[b.index],
                      poses[a.index].inverse() * poses[b.index], kWithinMm);
  }

  const Assembly& assembly_;
  const Sequence& way_;
  std::vector<std::shared_ptr<GapModel>> models_;
  std::vector<std::vector<Pose>> poses_;
};

/// @param mayTouch  They are fixed to each other.
void expectTrue(const PairResult& pair, const Samples& samples, bool mayTouch) {
  EXPECT_NE(pair.verdict, Verdict::unproven);
  for (int i = 0; i <= kSamples; ++i) {
    const PlacedGap gap = samples.at(i, pair.a, pair.b);
    EXPECT_GE(gap.gapMm, std::min(pair.gap.lowerMm, kWithinMm) - kEnginesMm) << "sample " << i;
    if (pair.verdict == Verdict::clear && !mayTouch) {
      EXPECT_FALSE(gap.meets) << "sample " << i;
      EXPECT_GE(gap.gapMm, pair.requiredGapMm - kShortMm) << "sample " << i;
    }
    if (pair.verdict == Verdict::tight) {
      EXPECT_FALSE(gap.meets) << "sample " << i;
    }
  }
  for (const Stretch& stretch : pair.stretches) {
    if (stretch.verdict != Verdict::clash || pair.insideJudged) continue;
    // With an open surface only surfaces that meet can be a clash.
    const PlacedGap gap = samples.atInstant((stretch.from + stretch.to) / 2, pair.a, pair.b);
    EXPECT_LE(gap.gapMm, kEnginesMm) << "from " << stretch.from << " to " << stretch.to;
  }
}

TEST_P(FirstCheckOf, SaysNothingThatSingleQueriesDeny) {
  const RobotFolder folder;
  const ReadRobot robot = readWell(kDart / GetParam().file, folder / "robot.swing.json");
  std::size_t moving = 0;
  for (const DocumentJoint& joint : robot.made.document.joints) {
    moving += joint.type != JointType::fixed ? 1 : 0;
  }
  EXPECT_EQ(moving, GetParam().moving);
  EXPECT_EQ(robot.loaded.modes.size(), moving > 0 ? 2u : 1u);
  const Assembly& assembly = robot.loaded.assembly;
  const auto ways = waysToCheck(robot.loaded.modes, robot.loaded.sequences);
  ASSERT_EQ(ways.size(), 1u);
  WorkMonitor monitor;
  const SequenceResult result = sweep(assembly, robot.loaded.modes, ways[0],
                                      prepareGeometry(assembly, 2), {0.01, 2}, monitor);
  std::size_t meshed = 0;
  for (const Part& part : assembly.parts()) meshed += part.mesh ? 1 : 0;
  EXPECT_GE(meshed, GetParam().links);
  EXPECT_EQ(result.pairs.size(), meshed * (meshed - 1) / 2);
  const Samples samples(assembly, ways[0]);
  for (const PairResult& pair : result.pairs) {
    SCOPED_TRACE(assembly.part(pair.a).name + " and " + assembly.part(pair.b).name);
    const auto& joints = assembly.joints();
    const bool fixed = std::any_of(joints.begin(), joints.end(), [&](const Joint& joint) {
      return joint.type == JointType::fixed && joint.parent &&
             std::minmax(*joint.parent, joint.child) == std::minmax(pair.a, pair.b);
    });
    expectTrue(pair, samples, fixed);
  }
}

INSTANTIATE_TEST_SUITE_P(DartDoc, FirstCheckOf,
                         ::testing::Values(FirstCheck{"urdf/wam/wam.urdf", 8, 7},
                                           FirstCheck{"urdf/KR5/KR5 sixx R650.urdf", 7, 6},
                                           FirstCheck{"urdf/drchubo/drchubo.urdf", 52, 51},
                                           FirstCheck{"sdf/atlas/atlas_v3_no_head.urdf", 31, 27},
                                           FirstCheck{"urdf/test/joint_properties.urdf", 3, 2},
                                           FirstCheck{"urdf/test/issue838.urdf", 3, 1},
                                           FirstCheck{"urdf/test/primitive_geometry.urdf", 1, 0},
                                           FirstCheck{"urdf/KR5/ground.urdf", 1, 0},
                                           FirstCheck{"sdf/atlas/ground.urdf", 1, 0}));

/// In robots joined links overlap by design: that is one cause, not a flood; asked to be left out,
/// they are.
TEST(FirstCheck, OfAnArmHasOneCauseAndNoneWhenJoinedPartsMayTouch) {
  for (const bool joined : {false, true}) {
    const RobotFolder folder;
    RobotWish wish;
    wish.allowJoined = joined;
    const ReadRobot robot =
        readWell(kDart / "urdf/KR5/KR5 sixx R650.urdf", folder / "robot.swing.json", wish);
    const auto ways = waysToCheck(robot.loaded.modes, robot.loaded.sequences);
    WorkMonitor monitor;
    CheckReport report{&robot.loaded, 0.01, ways, {}};
    const Assembly& assembly = robot.loaded.assembly;
    report.results.push_back(sweep(assembly, robot.loaded.modes, ways[0],
                                   prepareGeometry(assembly, 2), {0.01, 2}, monitor));
    const auto findings = findingsOf(report);
    const auto causes = causesOf(report, findings);
    if (joined) {
      EXPECT_TRUE(findings.empty());
      continue;
    }
    EXPECT_EQ(findings.size(), 6u) << "one for each joint";
    ASSERT_EQ(causes.size(), 1u);
    EXPECT_TRUE(causes[0].sentence.starts_with("Joints with overlap and no zone"));
  }
}

}  // namespace
}  // namespace swingroom::robots
