#pragma once

#include <memory>
#include <string>
#include <vector>

#include "core/assembly/assembly.h"
#include "core/mesh/features.h"

namespace swingroom {

/// A part made ready for suggestions. Lengths in mm.
struct RigPart {
  std::string name;
  std::shared_ptr<const TriangleMesh> mesh;      ///< In the part's frame P; null: without a mesh.
  Pose X_WP = Pose::Identity();                  ///< Where it stands with every joint at 0.
  std::shared_ptr<const Features> features;      ///< Of the mesh, in P. Parts of one mesh share them.
};

/// Every part of the assembly, by PartId, as it stands with every joint at 0.
/// @param known  Of before: features of a mesh that is still there are taken over.
std::vector<RigPart> rigPartsOf(const Assembly& assembly, unsigned threads,
                                const std::vector<RigPart>& known = {});

/// The feature as it stands in the assembly frame.
CylinderFeature placed(const CylinderFeature& feature, const Pose& X_WP);
BallFeature placed(const BallFeature& feature, const Pose& X_WP);

}  // namespace swingroom
