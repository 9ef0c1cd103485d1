#include "core/files/mesh_memory.h"

#include <algorithm>

namespace swingroom {

std::string fileStamp(const std::filesystem::path& file) {
  std::error_code failure;
  const auto size = std::filesystem::file_size(file, failure);
  if (failure) return "";
  const auto time = std::filesystem::last_write_time(file, failure);
  if (failure) return "";
  return std::to_string(size) + " " + std::to_string(time.time_since_epoch().count());
}

std::optional<MadeMesh> MeshMemory::find(const MeshWish& wish, const std::string& stamp) const {
  const std::lock_guard lock(mutex_);
  const auto [first, last] = byFile_.equal_range(wish.file.string());
  const auto found = std::find_if(first, last, [&](const auto& entry) {
    return entry.second.wish == wish && entry.second.stamp == stamp;
  });
  if (found == last) return std::nullopt;
  return found->second.made;
}

void MeshMemory::keep(const MeshWish& wish, const std::string& stamp, const MadeMesh& made) {
  if (stamp.empty() || !made.mesh) return;
  const std::lock_guard lock(mutex_);
  auto [entry, last] = byFile_.equal_range(wish.file.string());
  while (entry != last) {
    // Of one file only one state is of use.
    const bool stale = entry->second.stamp != stamp || entry->second.wish == wish;
    entry = stale ? byFile_.erase(entry) : std::next(entry);
  }
  byFile_.emplace(wish.file.string(), Entry{wish, stamp, made});
}

}  // namespace swingroom
