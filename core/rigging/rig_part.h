#pragma once

#include <memory>
#include <string>
#include <vector>

#include "core/assembly/assembly.h"
#include "core/mesh/features.h"
#include "core/motion/surface_samples.h"
#include "core/tree/bounding_tree.h"

namespace swingroom {

/// What suggestions need of a mesh, in its own frame; mm. Const from any thread.
struct RigShape {
  /// @param exact  Features that are known already, in the mesh's frame; may be null.
  explicit RigShape(std::shared_ptr<const TriangleMesh> meshOfPart,
                    const Features* exact = nullptr);

  std::shared_ptr<const TriangleMesh> mesh;
  Features features;
  BoundingTree tree;
  std::vector<SurfaceSample> samples;  ///< Spread evenly over the surface.
  Eigen::AlignedBox3d bounds;
};

/// A part made ready for suggestions.
struct RigPart {
  std::string name;
  Pose X_WP = Pose::Identity();           ///< Where it stands with every joint at 0.
  std::shared_ptr<const RigShape> shape;  ///< Null: without a mesh. Parts of one mesh share it.
};

/// Every part of the assembly, by PartId, as it stands with every joint at 0.
/// @param known  Of before: what belongs to a mesh that is still there is taken over.
std::vector<RigPart> rigPartsOf(const Assembly& assembly, unsigned threads,
                                const std::vector<RigPart>& known = {});

/// Features as they stand in the assembly frame.
CylinderFeature placed(const CylinderFeature& feature, const Pose& X_WP);
BallFeature placed(const BallFeature& feature, const Pose& X_WP);

}  // namespace swingroom
