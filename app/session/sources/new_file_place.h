#pragma once

#include <filesystem>

namespace swingroom {

/// Where an assembly that is made from this folder or file will be saved: beside it, or where that
/// may not be written among the user's documents; named like it, and not over a file that is there.
std::filesystem::path placeForNew(const std::filesystem::path& source);

}  // namespace swingroom
