#pragma once

#include <optional>
#include <string>

#include "core/assembly/joint.h"
#include "core/files/document/assembly_document.h"
#include "core/files/document/document_problems.h"

namespace swingroom {

/// Values that are written by hand agree if they differ by less, in degrees or mm.
constexpr double kValueTolerance = 1e-6;

/// What one unit in the file (a degree, a mm) is in core.
double unitOf(JointType type);

/// `95°`, `12.5 mm` or `[0, 0, 30]°`, with up to 4 decimals.
std::string valueText(const Joint& joint, const JointValue& value);
/// A difference of values in file units, as `10°` or `2 mm`.
std::string differenceText(const Joint& joint, double difference);

/// A value as the file gives it; tells at `pointer` if it is not of the joint's kind.
std::optional<JointValue> readValue(const Joint& joint, const DocumentValue& value,
                                    const std::string& pointer, DocumentProblems& problems);

/// Why the joint cannot stand at `value` (outside its range, off its clicks); empty: it can.
/// @param tolerance In file units.
std::string complaintAbout(const Joint& joint, const JointValue& value,
                           double tolerance = kValueTolerance);

/// How far apart two values are, in file units; of a ball the angle between them.
double differenceOf(const Joint& joint, const JointValue& a, const JointValue& b);

/// Angle of a ball's rotation off `along` and about it, rad, each in [0, pi] and (-pi, pi].
/// Swing after twist; Dobrowolski, "Swing-twist decomposition in Clifford algebra", 2015.
struct SwingTwist {
  double swingRad = 0;
  double twistRad = 0;
};
SwingTwist swingTwistOf(const JointValue& rotationVector, const Vector3d& along);

}  // namespace swingroom
