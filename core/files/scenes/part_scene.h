#pragma once

#include <filesystem>

#include "core/files/given_parts.h"

namespace swingroom {

/// The parts of one file that may hold many, placed where they stand. Numbers without a unit are
/// taken as mm; see `takeUnit`.
/// @param monitor May be null. Once it is cancelled, reading ends with some problem.
Outcome<GivenParts> readPartScene(const std::filesystem::path& file, const MeshReader& reader,
                                  const WorkMonitor* monitor);

}  // namespace swingroom
