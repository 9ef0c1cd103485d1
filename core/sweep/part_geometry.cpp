#include "core/sweep/part_geometry.h"

#include <map>

#include "core/base/parallel.h"

namespace swingroom {

const GapModel& Surface::gapModel() const {
  std::call_once(modelMade_, [this] { model_.emplace(*mesh); });
  return *model_;
}

bool hasSurface(const Part& part) {
  return part.mesh && !part.mesh->triangles.empty();
}

AssemblyGeometry prepareGeometry(const Assembly& assembly, unsigned threads,
                                 const AssemblyGeometry& known) {
  return prepareGeometryOf(std::vector<bool>(assembly.parts().size(), true), assembly, threads,
                           known);
}

AssemblyGeometry prepareGeometryOf(const std::vector<bool>& wanted, const Assembly& assembly,
                                   unsigned threads, const AssemblyGeometry& known) {
  std::map<const TriangleMesh*, std::size_t> slots;
  std::vector<std::shared_ptr<const TriangleMesh>> meshes;
  for (std::size_t p = 0; p < assembly.parts().size(); ++p) {
    const Part& part = assembly.parts()[p];
    if (wanted[p] && hasSurface(part) && slots.try_emplace(part.mesh.get(), meshes.size()).second)
      meshes.push_back(part.mesh);
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
  for (std::size_t p = 0; p < assembly.parts().size(); ++p) {
    const auto slot = slots.find(assembly.parts()[p].mesh.get());
    geometry.push_back(wanted[p] && slot != slots.end() ? unique[slot->second] : nullptr);
  }
  return geometry;
}

}  // namespace swingroom
