#pragma once

#include <optional>
#include <string_view>

#include "core/base/outcome.h"
#include "core/files/mesh_format.h"

namespace swingroom {

/// What is wrong with a file's bytes as far as can be told without building the mesh: another kind
/// of file under this ending, sizes that do not agree, a cut-off end. Assimp takes several of these
/// for sound meshes (a PLY that ends in its vertices) or hangs on them (one that ends in its
/// header).
std::optional<Problem> checkContent(std::string_view bytes, MeshFormat format);

}  // namespace swingroom
