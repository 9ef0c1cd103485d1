#pragma once

#include <optional>
#include <string>

#include "core/files/mesh_format.h"

struct aiScene;

namespace swingroom {

/// "#RRGGBB" if all coloured meshes of the scene have one and the same plain colour. Textures and
/// colours of single corners are not colours here.
std::optional<std::string> oneColourOf(const aiScene& scene, MeshFormat format);

}  // namespace swingroom
