#pragma once

#include <string>
#include <vector>

#include "core/files/loading/load_modes.h"

namespace swingroom {

/// Where the modes that are given by placements want the parts, by position of the mode.
std::vector<WantedPlacements> readPlacements(const AssemblyDocument& document,
                                             const std::vector<Part>& parts,
                                             const NameIndex& partNames,
                                             DocumentProblems& problems);

/// Joints to the ground for parts that have none and that a mode places elsewhere than at home: the
/// screw to the first such placement. Each is noted with its axis.
/// @param jointNames Gets their names.
std::vector<Joint> impliedJoints(const Assembly& assembly,
                                 const std::vector<WantedPlacements>& wanted, NameIndex& jointNames,
                                 DocumentProblems& problems);

/// Works out the joint values that bring every part nearest to where it is wanted; parts that are
/// not wanted anywhere have their joints at 0. What does not fit is told with its size: over 0.05
/// mm at the part's farthest vertex or 0.05 degrees as a mistake, over 0.001 as a note.
/// @param configuration Its mounts hold; gets the values.
void fitPlacements(const MotionContext& context, const WantedPlacements& wanted,
                   const std::string& pointer, Configuration& configuration);

/// A fitted value may be off by so much, in degrees or mm, before it is told.
constexpr double kFitTolerance = 0.05;

}  // namespace swingroom
