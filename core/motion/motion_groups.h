#pragma once

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
};

/// Parts that move alike, by index; the largest one first.
struct MotionGroup {
  std::vector<std::size_t> parts;
  Pose D = Pose::Identity();
};

struct MotionGroups {
  /// The ground first, whose D is none; the others in order of their largest parts.
  std::vector<MotionGroup> groups;
  /// Nothing stood still: the largest part's group was taken as the ground, and this motion of its
  /// was taken off all parts.
  std::vector<Pose> takenOff;  ///< Empty or one.
  /// Parts that fitted in several ways, of which one was chosen.
  std::vector<std::size_t> chosen;
};

/// Puts parts into one group if their displacements differ by at most 0.02 mm at every corner of
/// either's box and 0.02 degrees. Of a part that fits in several ways that one counts by which it
/// moves with others, if there is one; else the least turn.
/// @throws std::invalid_argument if there is no part.
MotionGroups groupByMotion(const std::vector<PartInTwoModes>& parts);

}  // namespace swingroom
