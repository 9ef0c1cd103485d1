#pragma once

#include <list>
#include <memory>
#include <mutex>
#include <optional>
#include <vector>

#include "core/sweep/surfaces.h"

namespace swingroom {

/// Surfaces that were cut before, so that a mesh that is still in use is not
/// cut again at the same zones: in each way, in each scene that an edit or a
/// save of another part makes. What it gives is what cutting would give. Those
/// that were used last stay, up to so many triangles; cuts of meshes that
/// nobody has any more go. Safe from several threads.
class CutMemory {
 public:
  explicit CutMemory(std::size_t mostTriangles = 2'000'000) : mostTriangles_(mostTriangles) {}

  /// @param zones  All that the cut depends on beside the mesh.
  std::optional<CutPart> find(const std::shared_ptr<const TriangleMesh>& mesh,
                              const std::vector<double>& zones);
  void keep(const std::shared_ptr<const TriangleMesh>& mesh, const std::vector<double>& zones,
            const CutPart& cut);

 private:
  struct Entry {
    std::weak_ptr<const TriangleMesh> mesh;
    std::vector<double> zones;
    CutPart cut;

    bool isOf(const std::shared_ptr<const TriangleMesh>& other) const {
      return !mesh.owner_before(other) && !other.owner_before(mesh);
    }
    std::size_t triangles() const {
      return cut.inside->mesh->triangles.size() + cut.outside->mesh->triangles.size();
    }
  };

  std::mutex mutex_;
  std::list<Entry> entries_;  ///< Used last first.
  std::size_t mostTriangles_;
};

}  // namespace swingroom
