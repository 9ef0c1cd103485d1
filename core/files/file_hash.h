#pragma once

#include <filesystem>
#include <string>

#include "core/base/outcome.h"

namespace swingroom {

/// SHA-256 (FIPS 180-4) of the file's bytes, in lower-case hex. Reads in pieces, so that large
/// files cost no memory. Safe from several threads.
Outcome<std::string> sha256Of(const std::filesystem::path& file);

}  // namespace swingroom
