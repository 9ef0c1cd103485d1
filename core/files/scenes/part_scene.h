#pragma once

#include <filesystem>
#include <vector>

#include "core/files/scenes/scene_file.h"
#include "core/files/sources/given_parts.h"

namespace swingroom {

/// The parts of one file that may hold many, placed where they stand; one mm a
/// unit where the format has none. All that are stretched or
/// sheared are told in one go.
/// @param monitor May be null. Once it is cancelled, reading ends with some problem.
Outcome<GivenParts> readPartScene(const std::filesystem::path& file, const MeshReader& reader,
                                  const WorkMonitor* monitor);

/// The same of a scene that has been read.
/// @param X_SPs  Where each part's own frame stands.
Outcome<GivenParts> givenParts(const SceneFile& scene, const std::filesystem::path& file,
                               const std::vector<Eigen::Affine3d>& X_SPs);

}  // namespace swingroom
