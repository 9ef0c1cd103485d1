#pragma once

#include "core/files/urdf/robot_description.h"
#include "core/files/urdf/xml_reading.h"

namespace swingroom {

/// Reads the form of a URDF file: elements, numbers, words; colours are found by their materials'
/// names. Whether the links hang together and the meshes are there is not looked at. What is wrong
/// goes to `problems`, all in one go, and what could be read is returned all the same.
/// @returns Nothing if the file is no URDF.
std::optional<RobotDescription> readUrdf(XmlProblems& problems);

}  // namespace swingroom
