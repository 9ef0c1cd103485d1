#pragma once

#include <filesystem>

#include "app/viewport/view_scene.h"
#include "core/files/loading/load_assembly.h"

namespace swingroom {

/// An assembly file as the 3D view takes it.
struct ViewedAssembly {
  LoadedAssembly loaded;
  AssemblyGeometry geometry;
  ViewScene scene;  ///< The bed is under the lowest point of the first mode.

  std::vector<Pose> posesAt(double instant) const;  ///< Of the first sequence.
};

/// @throws std::runtime_error with the first problem if the file cannot be read.
ViewedAssembly viewedAssembly(const std::filesystem::path& file);

}  // namespace swingroom
