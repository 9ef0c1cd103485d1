#pragma once

#include <functional>
#include <memory>

#include "core/stages/stage_surface.h"
#include "tests/support/shapes.h"

/// Blocks, and what a maker or an export makes of them.
namespace swingroom::shapes {

/// A plate of 2 `half` by 2 `half` about the middle of the hole, from z 0 to `thick`, with a round
/// through hole along z. `sides` is a multiple of 8; corners lie on the circle, the first at angle 0.
TriangleMesh plateWithHole(double half, double thick, double radius, int sides,
                           const Vector3d& holeAt = kOrigin);

/// A tray: a box of outer size `outer` from the origin, open on top, with walls and floor of `wall`.
TriangleMesh tray(const Vector3d& outer, double wall);

/// Each triangle in four, `times` times; the same surface.
TriangleMesh splitFiner(const TriangleMesh& mesh, int times);

/// Corners moved along their mean normals by `height` of where they are.
TriangleMesh sculpted(const TriangleMesh& mesh, const std::function<double(const Vector3d&)>& height);

/// Numbers as they are rounded in a binary STL.
TriangleMesh inFloats(const TriangleMesh& mesh);

StageSurface stage(const TriangleMesh& mesh);

}  // namespace swingroom::shapes
