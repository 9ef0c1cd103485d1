#pragma once

#include <optional>
#include <vector>

#include "core/assembly/assembly.h"

namespace swingroom {

/// One number by which a hand moves a joint: a hinge's angle (rad), a slide's way (mm), or of a
/// ball a component of its rotation vector (rad).
struct JointDrive {
  JointId joint;
  int component = 0;  ///< Of a ball; else 0.
  /// A ball only: it is turned about this unit axis of its parent (given as everything stands at
  /// home) instead. The number is then the angle from where it stood at first.
  std::optional<Vector3d> about = std::nullopt;

  bool operator==(const JointDrive&) const = default;
};

/// The number that `standing` has; 0 for a turn about an axis, which starts there.
double driven(const JointDrive& drive, const Configuration& standing);

/// The joint's value when the number is `to`, from where it stands at `value`.
JointValue drivenTo(const JointDrive& drive, const JointValue& value, double to);

/// Gives followers the values that their leaders give them, whatever the order in the file.
void letFollow(const Assembly& assembly, Configuration& standing);

/// Everything as it stands when a hand has moved the number to `to`: followers go along.
Configuration drivenTo(const Assembly& assembly, const Configuration& standing,
                       const JointDrive& drive, double to);

/// From one number to another as steps that the check can follow: a hinge or slide, and a ball
/// about one axis, by exact ones. A component of a ball's rotation vector runs on no fixed axis as
/// long as other components are not 0: then the steps are chords.
struct DrivenWay {
  std::vector<double> numbers;  ///< Where the steps begin and end; one more than `steps`.
  std::vector<Configuration> stands;
  /// The ball is never off its step by more than this turn, rad.
  double offRad = 0;
};
DrivenWay drivenWay(const Assembly& assembly, const Configuration& standing,
                    const JointDrive& drive, double from, double to);

}  // namespace swingroom
