#pragma once

#include "app/viewport/painters/strokes.h"
#include "app/viewport/view_mesh.h"
#include "app/viewport/view_scene.h"

namespace swingroom {

/// Adds a placed mesh's lines: creases and rims that look at the eye, and where the surface turns
/// away from it. Chosen here and not on the graphics card: a tenth of a millisecond a thousand
/// edges is spared.
/// @param X_WP  Pose of the mesh's own frame (not of its middle).
/// @param section  Null, or what cuts the mesh: nothing is added beyond it.
void addEdges(const ViewMesh& mesh, const Pose& X_WP, const StrokeStyle& crease,
              const StrokeStyle& outline, const ViewSection* section, StrokeBatch& batch);

}  // namespace swingroom
