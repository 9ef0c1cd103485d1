#pragma once

#include <vector>

#include "core/base/work_monitor.h"
#include "core/print/walls/wall_figures.h"
#include "core/print/walls/wall_surface.h"

namespace swingroom {

/// How finely a surface is looked at.
struct WallFineness {
  double pieceMm = 0.5;  ///< Faces that are not equally thick all over are split to this.
  double mostMm = 6;     ///< Thicker is not told apart.
  double provenMm = 3;   ///< Lower bounds are not sought above it.
};

/// The thickness of the surface's faces in pieces, in the faces' order: `wall`, `edge` or `none`.
/// After a cancel meaningless.
std::vector<WallPlace> thicknessOf(const WallSurface& surface, const WallFineness& fineness,
                                   unsigned threads, const WorkMonitor& monitor);

}  // namespace swingroom
