#pragma once

#include "core/files/mesh_file.h"
#include "core/files/scenes/scene_file.h"
#include "core/files/step/step_file.h"

namespace swingroom {

/// A STEP file as any file with many parts: a surface for each body, a part wherever it stands.
SceneFile sceneOf(StepFile file);

/// All bodies of a STEP file, placed and joined to one surface.
MeshFile joinedMeshOf(const StepFile& file);

}  // namespace swingroom
