#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/outcome.h"
#include "core/files/mesh_file.h"
#include "core/files/scenes/scene_file.h"

namespace swingroom {

/// What the reader program writes to its standard output: a head that states the size of what
/// follows, then the mesh, the scene or the problems. Both sides run on one machine: numbers as they lie in
/// memory.
namespace reader_protocol {

inline constexpr std::size_t kHeadBytes = 16;

/// Head and body. In problems `where` is the place in the file ("triangle 812"), empty for all of
/// it.
std::string encode(const Outcome<MeshFile>& outcome);
std::string encode(const Outcome<SceneFile>& outcome);

/// Bytes of the body, if this is a head.
std::optional<std::uint64_t> bodyBytes(std::string_view head);

/// Nothing if the body is not sound: cut off, counts beyond its size, indices out of range, numbers
/// that are not finite, no triangle. Texts come out as printable UTF-8 of modest length.
std::optional<Outcome<MeshFile>> decode(std::string_view body);
/// Likewise: a surface, node or time out of range, no part, an empty surface.
std::optional<Outcome<SceneFile>> decodeScene(std::string_view body);

}  // namespace reader_protocol
}  // namespace swingroom
