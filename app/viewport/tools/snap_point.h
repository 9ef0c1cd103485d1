#pragma once

#include <optional>

#include "core/base/id.h"
#include "core/base/transform.h"

namespace swingroom {

/// A point of a part that is measured from or to: exactly a corner, on an edge, or on a face.
struct SnapPoint {
  enum class Kind { corner, edge, face };

  Kind kind = Kind::face;
  PartId part;
  Vector3d p_W = Vector3d::Zero();
  std::optional<Vector3d> normal_W;  ///< Of a face; unit.
};

}  // namespace swingroom
