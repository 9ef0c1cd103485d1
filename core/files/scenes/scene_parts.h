#pragma once

#include <string>

#include "core/files/scenes/scene_file.h"

namespace swingroom {

/// The surface of the part of that name, or null.
const SceneSurface* findSurface(const SceneFile& scene, const std::string& part);

/// The name by which an assembly file asks for a part's surface: that of the first part that has it.
const std::string& surfaceName(const SceneFile& scene, const ScenePart& part);

/// "has no part ..." with those that there are; `where` is empty.
Problem noSuchPart(const SceneFile& scene, const std::string& part);

}  // namespace swingroom
