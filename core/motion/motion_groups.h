#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// A part as it stands in one mode, and how it gets from there to where it stands in another.
struct PartInTwoModes {
  std::string name;
  const TriangleMesh* mesh =
      nullptr;                ///< As in the first mode, in the assembly frame, mm. Not null.
  Pose D = Pose::Identity();  ///< To the second mode, in the assembly frame.
  /// More displacements that fit as well (`Registration::alternatives`).
  std::vector<Pose> alternatives;
  /// Displacements from the first mode at known moments on the way; all parts have as many.
  std::vector<Pose> onTheWay = {};
};

/// Parts that move alike, by index; the largest one first.
struct MotionGroup {
  std::vector<std::size_t> parts;
  Pose D = Pose::Identity();
  std::vector<Pose> onTheWay = {};  ///< As its parts have it.
};

/// How two groups stand against each other, b seen from a, where they have moved most: in the second
/// mode or on the way.
struct FarthestMotion {
  Pose X = Pose::Identity();
  std::optional<std::size_t> onTheWay;  ///< Which; none: the second mode.
};
/// @param box  Of b in the first mode: how far its corners come tells how far it moves.
FarthestMotion farthestMotion(const MotionGroup& a, const MotionGroup& b,
                              const Eigen::AlignedBox3d& box);

struct MotionGroups {
  /// The ground first, whose D is none; the others in order of their largest parts.
  std::vector<MotionGroup> groups;
  /// Nothing stood still: the largest part's group was taken as the ground, and this motion of its
  /// was taken off all parts.
  std::vector<Pose> takenOff;  ///< Empty or one.
  /// Parts that fitted in several ways, of which one was chosen.
  std::vector<std::size_t> chosen;
};

/// Puts parts into one group if their displacements, also those on the way, differ by at most 0.02 mm
/// at every corner of either's box and 0.02 degrees. Of a part that fits in several ways that one counts by which it
/// moves with others, if there is one; else the least turn.
/// @throws std::invalid_argument if there is no part.
MotionGroups groupByMotion(const std::vector<PartInTwoModes>& parts);

}  // namespace swingroom
