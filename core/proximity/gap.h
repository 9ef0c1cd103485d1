#pragma once

#include <limits>
#include <memory>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// A mesh prepared for `gapBetween`. Cheap to copy, const from any thread.
class GapModel {
 public:
  /// @throws std::invalid_argument for a mesh without triangles.
  explicit GapModel(const TriangleMesh& mesh);
  ~GapModel();
  GapModel(const GapModel&);
  GapModel& operator=(const GapModel&);

  struct Engine;
  const Engine& engine() const { return *engine_; }

 private:
  std::shared_ptr<const Engine> engine_;
};

/// Gap of two placed surfaces at one instant.
struct PlacedGap {
  double gapMm = 0;    ///< 0: they touch or cross.
  bool meets = false;  ///< They touch or cross. The points are then not set: the engine's mean nothing.
  bool found = false;  ///< The gap is below `withinMm`.
  Vector3d onA_A = Vector3d::Zero();  ///< In A's frame.
  Vector3d onB_A = Vector3d::Zero();  ///< In A's frame.
};

/// Least distance of two surfaces, one query of FCL's own trees; the check's proof does not come from
/// here. A part wholly inside another has the gap of their surfaces: containment is not looked at.
/// Accuracy: tests/judge (held against CGAL), about 1e-9 of the parts' size.
/// @param withinMm  Gaps at or above this are not told apart: it is answered for them, without points. A good
///     guess makes the query several times faster.
PlacedGap gapBetween(const GapModel& a, const GapModel& b, const Pose& X_AB,
                     double withinMm = std::numeric_limits<double>::max());

}  // namespace swingroom
