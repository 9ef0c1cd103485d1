#pragma once

#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "core/base/work_monitor.h"
#include "core/motion/joint_drive.h"
#include "core/sweep/standing_gaps.h"

namespace swingroom {

/// Nearer than this is a touch, mm. Far below what anyone sees, far above rounding: a joint that
/// was stopped stands proven free, and can be moved away again.
constexpr double kTravelTouchMm = 1e-5;

struct TravelQuestion {
  JointDrive drive;
  double least = 0, greatest = 0;  ///< Range to look at, rad or mm; the standing value is taken in.
  /// Most node tests a way, up or down; then the rest is not proven.
  std::uint64_t budget = 60'000'000;
};

/// Why a joint goes no farther one way.
struct TravelStop {
  PartId a, b;           ///< a before b.
  double touchedAt = 0;  ///< The two touch here, or a little before: rad or mm.
  /// They touch indeed; else they are not proven apart, for the budget ran out or it is too close
  /// to tell.
  bool touches = true;
  std::optional<Vector3d> point_W;  ///< Where, as everything stands at `freeTo`.
};

/// How far a joint goes one way from where it stands.
struct TravelWay {
  double freeTo = 0;  ///< No two parts touch from the standing value up to here: proven.
  std::optional<TravelStop> stop;  ///< None: nothing stops it up to the range's end.
};

struct FreeTravel {
  TravelWay down, up;  ///< Towards `least`, and towards `greatest`.
  /// Pairs that meet as everything stands: nothing is said of them.
  std::vector<std::pair<PartId, PartId>> meeting;
};

/// How far a hand may move one joint each way from where everything stands, followers going along,
/// before the surfaces of any two parts that it moves against each other meet. Joint zones are cut
/// away as for the required gap; pairs whose findings are allowed are left out; a contact stops as
/// any touch does.
/// @throws std::invalid_argument if a ring of joints holds.
/// After a cancel what is returned means nothing. Const, safe from several threads.
FreeTravel freeTravel(const Assembly& assembly, const StandingGaps& gaps,
                      const Configuration& standing, const TravelQuestion& question,
                      const WorkMonitor& monitor);

}  // namespace swingroom
