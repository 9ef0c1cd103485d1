#include "core/sweep/part_geometry.h"

#include <map>

#include "core/base/parallel.h"

namespace swingroom {

const GapModel& Surface::gapModel() const {
  std::call_once(modelMade_, [this] { model_.emplace(*mesh); });
  return *model_;
}

AssemblyGeometry prepareGeometry(const Assembly& assembly, unsigned threads,
                                 const AssemblyGeometry& known) {
  std::map<const TriangleMesh*, std::size_t> slots;
  std::vector<std::shared_ptr<const TriangleMesh>> meshes;
  for (const Part& part : assembly.parts()) {
    const bool usable = part.mesh && !part.mesh->triangles.empty();
    if (usable && slots.try_emplace(part.mesh.get(), meshes.size()).second) meshes.push_back(part.mesh);
  }
  AssemblyGeometry unique(meshes.size());
  for (const auto& part : known) {
    const auto slot = part ? slots.find(part->surface->mesh.get()) : slots.end();
    if (slot != slots.end()) unique[slot->second] = part;
  }
  parallelFor(meshes.size(), threads, [&](std::size_t i) {
    if (!unique[i]) unique[i] = std::make_shared<const PartGeometry>(meshes[i]);
  });
  AssemblyGeometry geometry;
  for (const Part& part : assembly.parts()) {
    const auto slot = slots.find(part.mesh.get());
    geometry.push_back(slot == slots.end() ? nullptr : unique[slot->second]);
  }
  return geometry;
}

}  // namespace swingroom
