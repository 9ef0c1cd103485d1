#pragma once

#include <filesystem>
#include <memory>
#include <vector>

#include "core/files/loading/load_assembly.h"
#include "core/sweep/standing_gaps.h"

namespace swingroom {

/// An assembly made ready to be shown and checked. Fixed once built; shared between threads.
struct Scene {
  Scene(AssemblyDocument written, LoadedAssembly&& made, unsigned threads, const Scene* before);

  AssemblyDocument document;  ///< What it was made from.
  LoadedAssembly loaded;
  AssemblyGeometry geometry;
  StandingGaps gaps;
  std::vector<Sequence> ways;  ///< Never empty: without modes the assembly stands at home.
  Vector3d up_W, front_W;      ///< Unit, square to each other.
  double floorMm = 0;          ///< Lowest point along `up_W` over all modes.

  const Assembly& assembly() const { return loaded.assembly; }
  /// A mode's name; of a way that was made up because there is no mode "as modelled".
  std::string modeName(ModeId mode) const;
};

using ScenePtr = std::shared_ptr<const Scene>;

/// @param before  An earlier state whose geometry is used again where meshes are the same; or null.
Outcome<ScenePtr> makeScene(const AssemblyDocument& document, const std::filesystem::path& file,
                            const MeshSource& source, const Scene* before);

}  // namespace swingroom
