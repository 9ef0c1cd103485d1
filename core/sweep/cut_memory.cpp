#include "core/sweep/cut_memory.h"

#include <algorithm>

namespace swingroom {

std::optional<CutPart> CutMemory::find(const std::shared_ptr<const TriangleMesh>& mesh,
                                       const std::vector<double>& zones) {
  const std::lock_guard lock(mutex_);
  const auto found = std::find_if(entries_.begin(), entries_.end(), [&](const Entry& entry) {
    return entry.isOf(mesh) && entry.zones == zones;
  });
  if (found == entries_.end()) return std::nullopt;
  entries_.splice(entries_.begin(), entries_, found);
  return found->cut;
}

void CutMemory::keep(const std::shared_ptr<const TriangleMesh>& mesh,
                     const std::vector<double>& zones, const CutPart& cut) {
  const std::lock_guard lock(mutex_);
  std::erase_if(entries_, [](const Entry& entry) { return entry.mesh.expired(); });
  entries_.push_front({mesh, zones, cut});
  std::size_t triangles = 0;
  for (auto entry = entries_.begin(); entry != entries_.end();) {
    triangles += entry->triangles();
    const bool tooMany = triangles > mostTriangles_ && entry != entries_.begin();
    entry = tooMany ? entries_.erase(entry) : std::next(entry);
  }
}

}  // namespace swingroom
