#pragma once

#include <optional>

#include "core/files/byte_stream.h"
#include "core/files/scenes/scene_file.h"

namespace swingroom {

/// At least one triangle, indices in range, finite numbers.
bool isSoundMesh(const TriangleMesh& mesh);

void writeScene(ByteWriter& writer, const SceneFile& scene);

/// To the end of what is read; nothing if it is not sound.
std::optional<SceneFile> readScene(ByteReader& reader);

}  // namespace swingroom
