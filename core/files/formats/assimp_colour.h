#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/files/mesh_format.h"

struct aiScene;

namespace swingroom {

/// "#RRGGBB" if all coloured ones of these meshes have one and the same plain colour. Textures and
/// colours of single corners are not colours here.
std::optional<std::string> oneColourOf(const aiScene& scene, const std::vector<unsigned>& meshes,
                                       MeshFormat format);

std::vector<unsigned> allMeshesOf(const aiScene& scene);

}  // namespace swingroom
