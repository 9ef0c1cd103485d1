#pragma once

#include "core/assembly/assembly.h"

namespace swingroom {

/// How large a figure is where it stands, mm: as one who faces it sees it.
struct FigureSize {
  double widthMm = 0;   ///< From side to side.
  double depthMm = 0;   ///< From front to back.
  double heightMm = 0;  ///< Along `up`.
};

/// The extent of all parts that have a mesh, by their vertices; zero without any.
/// @param up_W, front_W  Of any length but 0, not along each other; `front` need not be square to
/// `up`.
/// @throws std::invalid_argument if mounts that hold form a ring.
FigureSize figureSize(const Assembly& assembly, const Configuration& standing, const Vector3d& up_W,
                      const Vector3d& front_W);

}  // namespace swingroom
