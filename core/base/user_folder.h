#pragma once

#include <filesystem>
#include <optional>

namespace swingroom {

enum class UserFolder { cache, config, data };

/// This user's folder for files of that kind, ours within it: $XDG_CACHE_HOME/swingroom, or
/// ~/.cache/swingroom (XDG Base Directory Specification: a path that is not absolute counts as
/// none). It need not be there. None: neither is known.
std::optional<std::filesystem::path> userFolder(UserFolder kind);

}  // namespace swingroom
