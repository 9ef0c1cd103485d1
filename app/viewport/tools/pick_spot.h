#pragma once

#include <array>
#include <optional>

#include "app/viewport/tools/measure_snap.h"

namespace swingroom {

/// What the pointer points at on a part's surface.
struct PickSpot {
  SnapPoint snap;            ///< A corner or an edge nearby, else the face.
  Vector3d p_W = Vector3d::Zero();  ///< On the surface under the pointer.
  std::size_t triangle = 0;  ///< Index into the part's mesh; the one under the pointer.

  bool operator==(const PickSpot& other) const {
    return snap.part == other.snap.part && snap.kind == other.snap.kind &&
           snap.p_W == other.snap.p_W && p_W == other.p_W && triangle == other.triangle;
  }
};

/// The triangle of the part's mesh that was met.
std::optional<std::size_t> triangleAt(const ViewStage& stage, const ViewPick& hit);

std::optional<PickSpot> spotAt(const ViewStage& stage, const ViewProjection& view,
                               const Eigen::Vector2d& pixel);

}  // namespace swingroom
