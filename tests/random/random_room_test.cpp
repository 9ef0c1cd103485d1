// The room map against dense samples: at no sampled instant is any piece nearer to the other part, less the
// required gap, than what it is painted with. Poses by kinematics of our own, distances by FCL.
#include <gtest/gtest.h>

#include <cstdlib>
#include <random>

#include "core/proximity/gap.h"
#include "core/room/room_map.h"
#include "tests/random/kinematics.h"
#include "tests/random/random_motion.h"

namespace swingroom::random_suite {
namespace {

constexpr std::uint64_t kRoomSeed = 80'117;
constexpr int kRoomCases = 24;
constexpr int kInstants = 97, kPieces = 60, kFreeSamples = 200;
constexpr double kFclMm = 1e-6;  ///< What FCL and rounding may be off.

/// One piece as a mesh of its own for FCL.
GapModel modelOf(const RoomPlace& place) {
  return GapModel(TriangleMesh{{place.corners_P[0], place.corners_P[1], place.corners_P[2]}, {{0, 1, 2}}});
}

class RoomCase {
 public:
  explicit RoomCase(const RandomCase& random)
      : assembly_(random.assembly()),
        sequence_(random.sequence),
        part_{random.parts.parts.size() - 1},
        random_(random.seed) {}

  void run() {
    const AssemblyGeometry geometry = prepareGeometry(assembly_, 1);
    const std::vector<Sequence> ways{sequence_};
    RoomSettings settings;
    settings.resolutionMm = 0.05;
    settings.threads = 1;
    WorkMonitor monitor;
    const RoomMap map = roomMap({assembly_, ways, geometry, part_}, settings, monitor);
    ASSERT_TRUE(map.done);
    choosePieces(map);
    for (PartId other; other.index < assembly_.parts().size(); ++other.index) {
      if (other != part_ && assembly_.part(other).mesh) hold(other);
    }
    for (const RoomPlace* place : chosen_) EXPECT_LE(place->upperMm - place->lowerMm, map.resolutionMm + 1e-9);
  }

 private:
  /// Those with least room and some others.
  void choosePieces(const RoomMap& map) {
    std::vector<const RoomPlace*> judged;
    for (const RoomPlace& place : map.places) {
      if (place.state == RoomState::room || place.state == RoomState::capped) judged.push_back(&place);
    }
    std::shuffle(judged.begin(), judged.end(), random_);
    const std::size_t few = std::min<std::size_t>(kPieces / 2, judged.size());
    std::partial_sort(judged.begin() + static_cast<std::ptrdiff_t>(few),
                      judged.begin() + static_cast<std::ptrdiff_t>(std::min<std::size_t>(kPieces, judged.size())),
                      judged.end(), [](const auto* a, const auto* b) { return a->lowerMm < b->lowerMm; });
    judged.resize(std::min<std::size_t>(kPieces, judged.size()));
    chosen_ = judged;
  }

  void hold(PartId other) {
    const PairKinematics motion(assembly_, sequence_, other, part_);
    const GapModel model(*assembly_.part(other).mesh);
    const double requiredMm = assembly_.requiredGapMm(other, part_);
    for (const RoomPlace* place : chosen_) {
      const GapModel piece = modelOf(*place);
      const auto look = [&](const Pose& X_OP, const std::string& when) {
        const double gapMm = gapBetween(model, piece, X_OP).gapMm;
        if (place->lowerMm <= 0) return;  // 0 claims nothing: it may be that there is none.
        EXPECT_GE(gapMm - requiredMm, place->lowerMm - kFclMm)
            << when << ": painted with more room than there is, at " << place->corners_P[0].transpose();
      };
      for (int i = 0; i < kInstants; ++i) {
        const double instant = i / (kInstants - 1.0);
        look(motion.at(instant), "instant " + std::to_string(instant));
      }
      lookAtStop(*place, other, [&](double instant) {
        return gapBetween(model, piece, motion.at(instant)).gapMm - requiredMm;
      }, motion);
      lookAtFree(motion, look);
      if (::testing::Test::HasFailure()) return;
    }
  }

  /// At the instant that is told the piece has no more room than is told.
  template <typename RoomAt>
  void lookAtStop(const RoomPlace& place, PartId other, const RoomAt& roomAt, const PairKinematics& motion) {
    if (!place.stop || place.stop->part != other) return;
    if (motion.isFree(stepAt(sequence_, place.stop->instant).step)) return;
    EXPECT_LE(roomAt(place.stop->instant), place.upperMm + kFclMm) << "at " << place.corners_P[0].transpose();
  }

  template <typename Look>
  void lookAtFree(const PairKinematics& motion, const Look& look) {
    std::uniform_real_distribution<double> share(0, 1);
    for (std::size_t step = 0; step < motion.steps(); ++step) {
      if (!motion.isFree(step)) continue;
      for (int i = 0; i < kFreeSamples; ++i) {
        std::vector<double> shares(assembly_.joints().size());
        for (double& s : shares) s = share(random_);
        look(motion.at(step, shares), "free step " + std::to_string(step));
      }
    }
  }

  Assembly assembly_;
  Sequence sequence_;
  PartId part_;
  std::mt19937_64 random_;
  std::vector<const RoomPlace*> chosen_;
};

TEST(RandomRoom, NoPieceIsPaintedWithMoreRoomThanItHasAtAnySampledInstant) {
  const char* asked = std::getenv("SWINGROOM_RANDOM_CASES");
  const int cases = asked ? std::atoi(asked) : kRoomCases;
  for (int number = 0; number < cases; ++number) {
    const RandomCase random = randomCase(kRoomSeed, number);
    SCOPED_TRACE(::testing::Message() << "seed " << kRoomSeed << ", case " << number << ", "
                                      << nameOf(random.kind) << ": " << random.description);
    RoomCase(random).run();
    if (HasFailure()) return;
  }
}

}  // namespace
}  // namespace swingroom::random_suite
