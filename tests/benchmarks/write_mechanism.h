#pragma once

#include <filesystem>

#include "tests/support/mechanism.h"

namespace swingroom::bench {

/// A mechanism as an assembly file with its meshes (STL), named by their parts.
/// @returns The assembly file.
std::filesystem::path writeMechanism(const Mechanism& mechanism,
                                     const std::filesystem::path& folder);

}  // namespace swingroom::bench
