#pragma once

#include <memory>

#include "core/assembly/assembly.h"
#include "core/sweep/part_geometry.h"

namespace swingroom {

/// One part's surface cut along a region.
struct CutPart {
  std::shared_ptr<const Surface> inside;
  std::shared_ptr<const Surface> outside;
  double insideAreaMm2 = 0;
};

/// Cuts `mesh` (in the part's frame P) at all zones of the joints; P stands at `X_WP_home` when every joint
/// is at 0, which is when the zones are where the joints say.
CutPart cutAtZones(const TriangleMesh& mesh, const Pose& X_WP_home, const std::vector<const Joint*>& joints);

/// The same; a mesh that is still in use is cut once.
CutPart cutAtZones(const std::shared_ptr<const TriangleMesh>& mesh, const Pose& X_WP_home,
                   const std::vector<const Joint*>& joints);

/// Cuts `mesh` at a ball given in the world while the part stands at `X_WP`.
CutPart cutAtPlace(const TriangleMesh& mesh, const Pose& X_WP, const Contact::Place& place);

}  // namespace swingroom
