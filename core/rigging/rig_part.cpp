#include "core/rigging/rig_part.h"

#include <map>

#include "core/base/parallel.h"
#include "core/mesh/feature_finder.h"

namespace swingroom {

std::vector<RigPart> rigPartsOf(const Assembly& assembly, unsigned threads,
                                const std::vector<RigPart>& known) {
  std::map<const TriangleMesh*, std::shared_ptr<const Features>> found;
  for (const RigPart& part : known) {
    if (part.mesh && part.features) found[part.mesh.get()] = part.features;
  }
  std::vector<const TriangleMesh*> wanted;
  std::vector<RigPart> parts;
  for (const Part& part : assembly.parts()) {
    parts.push_back({part.name, part.mesh, part.X_WP_home, nullptr});
    if (part.mesh && found.try_emplace(part.mesh.get()).second) wanted.push_back(part.mesh.get());
  }
  std::vector<std::shared_ptr<const Features>> results(wanted.size());
  parallelFor(wanted.size(), threads, [&](std::size_t i) {
    results[i] = std::make_shared<const Features>(featuresOf(*wanted[i]));
  });
  for (std::size_t i = 0; i < wanted.size(); ++i) found[wanted[i]] = results[i];
  for (RigPart& part : parts) {
    if (part.mesh) part.features = found.at(part.mesh.get());
  }
  return parts;
}

CylinderFeature placed(const CylinderFeature& feature, const Pose& X_WP) {
  CylinderFeature result = feature;
  result.through = X_WP * feature.through;
  result.along = X_WP.linear() * feature.along;
  return result;
}

BallFeature placed(const BallFeature& feature, const Pose& X_WP) {
  BallFeature result = feature;
  result.centre = X_WP * feature.centre;
  return result;
}

}  // namespace swingroom
