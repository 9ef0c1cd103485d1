#include "core/files/mesh_memory.h"

#include <sys/stat.h>

#include <algorithm>

namespace swingroom {

std::string fileStamp(const std::filesystem::path& file) {
  struct stat facts {};
  if (::stat(file.c_str(), &facts) != 0 || !S_ISREG(facts.st_mode)) return "";
  return std::to_string(facts.st_size) + " " + std::to_string(facts.st_mtim.tv_sec) + "." +
         std::to_string(facts.st_mtim.tv_nsec) + " " + std::to_string(facts.st_ino);
}

std::optional<MadeMesh> MeshMemory::findLast(const MeshWish& wish) const {
  const std::lock_guard lock(mutex_);
  const auto [first, last] = byFile_.equal_range(wish.file.string());
  const auto found =
      std::find_if(first, last, [&](const auto& entry) { return entry.second.wish == wish; });
  if (found == last) return std::nullopt;
  return found->second.made;
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
