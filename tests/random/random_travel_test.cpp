// How far joints go in random assemblies until parts touch, against dense samples by other poses
// (kinematics.h), FCL's distances and CGAL's exact word near zero.
#include <gtest/gtest.h>

#include <cstdio>

#include "core/sweep/free_travel.h"
#include "tests/random/dense_reference.h"
#include "tests/random/random_motion.h"

namespace swingroom::random_suite {
namespace {

constexpr std::uint64_t kTravelSeed = 611;
constexpr int kTravelCases = 90, kTravelSamples = 150;
/// A chord of one degree is off by at most 4e-5 rad, parts here are within 100 mm; and a touch is
/// told a little early.
constexpr double kEarlyMm = 0.01;

struct TravelTally {
  int joints = 0, stops = 0, meeting = 0, balls = 0;
};

/// All pairs of one case, as one joint is driven.
class TravelJudge {
 public:
  explicit TravelJudge(const RandomCase& c) : case_(c), assembly_(c.assembly()) {
    for (std::size_t a = 0; a < assembly_.parts().size(); ++a) {
      for (std::size_t b = a + 1; b < assembly_.parts().size(); ++b) {
        motions_.emplace_back(assembly_, case_.sequence, PartId{a}, PartId{b});
        gaps_.emplace_back(*assembly_.parts()[a].mesh, *assembly_.parts()[b].mesh);
        pairs_.emplace_back(PartId{a}, PartId{b});
      }
    }
  }

  void judge(const JointDrive& drive, double least, double greatest, TravelTally& tally) const {
    const Configuration& standing = case_.sequence.steps.front().start;
    const StandingGaps gaps(assembly_, prepareGeometry(assembly_, 1));
    const FreeTravel travel =
        freeTravel(assembly_, gaps, standing, {drive, least, greatest}, WorkMonitor());
    tally.joints += 1;
    tally.meeting += static_cast<int>(travel.meeting.size());
    for (const TravelWay& way : {travel.down, travel.up}) {
      tally.stops += way.stop.has_value();
      for (std::size_t p = 0; p < pairs_.size(); ++p) judgePair(drive, standing, travel, way, p);
      if (way.stop) judgeStop(drive, standing, way);
    }
  }

 private:
  Pose at(std::size_t p, const JointDrive& drive, const Configuration& standing,
          double number) const {
    std::vector<JointValue> values = standing.values;
    values[drive.joint.index][drive.component] = number;
    return motions_[p].at(values);
  }

  void judgePair(const JointDrive& drive, const Configuration& standing, const FreeTravel& travel,
                 const TravelWay& way, std::size_t p) const {
    const double from = driven(drive, standing);
    const bool meets =
        std::find(travel.meeting.begin(), travel.meeting.end(), pairs_[p]) != travel.meeting.end();
    const bool moves = !at(p, drive, standing, from)
                            .isApprox(at(p, drive, standing, 0.5 * (from + way.freeTo)), 1e-12);
    if (!moves) return;
    EXPECT_EQ(meets, gaps_[p].at(at(p, drive, standing, from), 1).clash()) << name(drive, p);
    if (meets) return;
    for (int i = 0; i <= kTravelSamples; ++i) {
      const double number = from + (way.freeTo - from) * i / kTravelSamples;
      const Sample sample = gaps_[p].at(at(p, drive, standing, number), 1);
      ASSERT_FALSE(sample.clash()) << name(drive, p) << " at " << number << " though free from "
                                   << from << " to " << way.freeTo;
    }
  }

  void judgeStop(const JointDrive& drive, const Configuration& standing,
                 const TravelWay& way) const {
    ASSERT_TRUE(way.stop->touches) << case_.description;
    const auto p = static_cast<std::size_t>(
        std::find(pairs_.begin(), pairs_.end(), std::pair(way.stop->a, way.stop->b)) -
        pairs_.begin());
    ASSERT_LT(p, pairs_.size());
    EXPECT_LE(gaps_[p].at(at(p, drive, standing, way.stop->touchedAt), 1).judgedMm(), kEarlyMm)
        << name(drive, p);
  }

  std::string name(const JointDrive& drive, std::size_t p) const {
    return "case " + std::to_string(case_.number) + ", joint " + std::to_string(drive.joint.index) +
           ", pair " + std::to_string(pairs_[p].first.index) + "-" +
           std::to_string(pairs_[p].second.index) + ": " + case_.description;
  }

  const RandomCase& case_;
  Assembly assembly_;
  std::vector<PairKinematics> motions_;
  std::vector<GapReference> gaps_;
  std::vector<std::pair<PartId, PartId>> pairs_;
};

TEST(RandomTravels, NoSampleMeetsWhereAJointIsProvenFreeAndAtAStopThePairTouches) {
  RecordProperty("seed", std::to_string(kTravelSeed));
  std::printf("suite %llu, %d cases\n", static_cast<unsigned long long>(kTravelSeed), kTravelCases);
  TravelTally tally;
  for (int number = 0; number < kTravelCases; ++number) {
    const RandomCase c = randomCase(kTravelSeed, number);
    const TravelJudge judge(c);
    for (std::size_t j = 0; j < c.parts.joints.size(); ++j) {
      const Joint& joint = c.parts.joints[j];
      if (joint.type == JointType::fixed || joint.follows) continue;
      const double reach = joint.type == JointType::slide ? 30 : 2.5;
      const int components = joint.type == JointType::ball ? 3 : 1;
      tally.balls += joint.type == JointType::ball;
      for (int k = 0; k < components; ++k) {
        const double now = c.sequence.steps.front().start.values[j][k];
        judge.judge({JointId{j}, k}, now - reach, now + reach, tally);
      }
    }
  }
  std::printf("%d drives (%d balls), %d stops, %d pairs met at the start\n", tally.joints,
              tally.balls, tally.stops, tally.meeting);
  EXPECT_GT(tally.stops, 30);
  EXPECT_GT(tally.balls, 3);
}

}  // namespace
}  // namespace swingroom::random_suite
