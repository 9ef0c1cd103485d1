#pragma once

#include <optional>
#include <string>

#include "core/files/sources/new_assembly.h"

namespace CLI {
class App;
}

namespace swingroom {

/// How large the new assembly is to be.
struct SizeWish {
  std::optional<double> factor;
  std::optional<double> heightMm;  ///< In `mode`.
  std::string mode;                ///< Empty: the first.
};

/// Adds `--scale`, `--height` and `--in`.
void addSizeOptions(CLI::App& make, SizeWish& wish);

/// Makes the assembly as large as is wished and says so in its `found`; without a wish nothing
/// happens.
/// @param file  Where it will be: meshes are read from there to measure the height.
/// @returns What is wrong; empty: it is done.
Problems makeSize(const SizeWish& wish, const std::filesystem::path& file, unsigned threads,
                  NewAssembly& made);

}  // namespace swingroom
