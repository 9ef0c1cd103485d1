#pragma once

#include <filesystem>
#include <string>

#include "core/files/file_hash.h"
#include "core/files/mesh_memory.h"

namespace swingroom {

/// What a file was like at a moment. Two states with the same digest are the same content.
struct FileState {
  std::string stamp;   ///< Size and time; empty: it is not there.
  std::string digest;  ///< SHA-256 of its bytes; empty: it is not there.

  static FileState of(const std::filesystem::path& file) {
    FileState state;
    state.stamp = fileStamp(file);
    if (state.stamp.empty()) return state;
    const Outcome<std::string> digest = sha256Of(file);
    if (digest) state.digest = *digest;
    return state;
  }

  bool isThere() const { return !digest.empty(); }
};

}  // namespace swingroom
