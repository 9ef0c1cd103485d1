#pragma once

#include <memory>
#include <string>

#include "core/base/transform.h"
#include "core/mesh/features.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

enum class PartKind { printed, bought, soft };

/// One rigid piece of an assembly.
struct Part {
  std::string name;
  PartKind kind = PartKind::printed;
  /// In the part's frame P, mm; scale and mirror already applied. Null: a part without a mesh.
  /// Instances of one file share it.
  std::shared_ptr<const TriangleMesh> mesh;
  /// Where the part stands when every joint is at 0.
  Pose X_WP_home = Pose::Identity();
  /// Pins, holes, balls and sockets that its file gives exactly (STEP), in P. Null: those of a mesh
  /// have to be found.
  std::shared_ptr<const Features> exactFeatures = nullptr;
};

}  // namespace swingroom
