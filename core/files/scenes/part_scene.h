#pragma once

#include <filesystem>

#include "core/files/given_parts.h"

namespace swingroom {

/// The parts of one file that may hold many, placed where they stand.
/// @param mmPerUnit For formats without a unit.
/// @param monitor May be null. Once it is cancelled, reading ends with some problem.
Outcome<GivenParts> readPartScene(const std::filesystem::path& file, double mmPerUnit,
                                  const MeshReader& reader, const WorkMonitor* monitor);

}  // namespace swingroom
