#include "core/rigging/rig_part.h"

#include <map>

#include "core/base/parallel.h"
#include "core/mesh/exact_features.h"
#include "core/mesh/feature_finder.h"

namespace swingroom {
namespace {

constexpr std::size_t kRigSamples = 6000;

}  // namespace

RigShape::RigShape(std::shared_ptr<const TriangleMesh> meshOfPart, const Features* exact)
    : mesh(std::move(meshOfPart)),
      features(exact ? withExact(featuresOf(*mesh), *exact) : featuresOf(*mesh)),
      tree(*mesh),
      samples(sampledByArea(*mesh, kRigSamples)),
      bounds(boundsOf(*mesh)) {}

std::vector<RigPart> rigPartsOf(const Assembly& assembly, unsigned threads,
                                const std::vector<RigPart>& known) {
  std::map<const TriangleMesh*, std::shared_ptr<const RigShape>> shapes;
  for (const RigPart& part : known) {
    if (part.shape) shapes[part.shape->mesh.get()] = part.shape;
  }
  std::vector<const Part*> wanted;
  for (const Part& part : assembly.parts()) {
    if (part.mesh && shapes.try_emplace(part.mesh.get()).second) wanted.push_back(&part);
  }
  std::vector<std::shared_ptr<const RigShape>> made(wanted.size());
  parallelFor(wanted.size(), threads, [&](std::size_t i) {
    made[i] = std::make_shared<const RigShape>(wanted[i]->mesh, wanted[i]->exactFeatures.get());
  });
  for (std::size_t i = 0; i < wanted.size(); ++i) shapes[wanted[i]->mesh.get()] = made[i];
  std::vector<RigPart> parts;
  for (const Part& part : assembly.parts()) {
    parts.push_back({part.name, part.X_WP_home, part.mesh ? shapes.at(part.mesh.get()) : nullptr});
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
