#pragma once

#include <filesystem>

#include "core/base/outcome.h"
#include "core/files/mesh_file.h"
#include "core/files/step/step_file.h"

namespace swingroom {

/// All bodies of a STEP file, placed and joined to one surface, as `readStep` reads them.
Outcome<MeshFile> readStepMesh(const std::filesystem::path& file,
                               double deviationMm = kUsualDeviationMm,
                               const std::function<void(const Problem&)>& faults = nullptr);

}  // namespace swingroom
