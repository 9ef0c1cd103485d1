#pragma once

#include <chrono>
#include <filesystem>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "core/base/digest.h"
#include "core/store/mesh_digests.h"
#include "core/store/shelf_file.h"

namespace swingroom {

/// What a store may take.
struct StoreBounds {
  std::size_t recordsInMemory = 200'000;  ///< Of a pair some 300 bytes each.
  /// A larger file is cut down to half of it, but never below what this run has used.
  std::uintmax_t bytesOfShelf = 1u << 20;
  std::uintmax_t bytesOnDisk = 256u << 20;  ///< Shelves not used for longest go first.
  std::chrono::seconds unsavedFor{10};      ///< A run that is stopped loses no more than this.
};

/// Records by key: in memory and, if there is a folder, on disk for the next run. Both are bounded;
/// what was used last stays. Whatever is wrong with the folder, nothing fails: what cannot be read
/// is not there, what cannot be written is kept in memory only. Safe from several threads, and with
/// several programs on one folder.
///
/// On disk a shelf is a file. Records that are wanted together should stand on one: pairs' results
/// stand on the shelf of their first part's mesh, so that a check reads as many files as it has
/// meshes.
class ResultStore {
 public:
  /// @param folder  Is made, with those above it, when there is something to write. None: in memory
  /// only.
  explicit ResultStore(std::optional<std::filesystem::path> folder = std::nullopt,
                       const StoreBounds& bounds = {})
      : folder_(std::move(folder)), bounds_(bounds) {}
  /// Saves.
  ~ResultStore();
  ResultStore(const ResultStore&) = delete;
  ResultStore& operator=(const ResultStore&) = delete;

  std::optional<std::string> find(const Digest& shelf, const Digest& key);
  void keep(const Digest& shelf, const Digest& key, const std::string& record);
  /// Writes what is new to the folder.
  void save();
  /// Forgets all, on disk too.
  void clear();
  /// Of its shelves in the folder, in bytes.
  std::uintmax_t bytesOnDisk() const;
  const std::optional<std::filesystem::path>& folder() const { return folder_; }

  /// Of the meshes whose results it keeps.
  MeshDigests& meshDigests() { return meshDigests_; }

 private:
  struct DigestHash {
    std::size_t operator()(const Digest& digest) const;
  };
  using Records = std::unordered_map<Digest, std::string, DigestHash>;

  // All of these under the mutex.
  void readShelf(const Digest& shelf);
  void noteUse(const Digest& shelf, const Digest& key, std::size_t bytes);
  Records::iterator remember(const Digest& key, std::string record);
  void saveNow();
  void saveShelf(const Digest& shelf, const std::vector<ShelfFile::Record>& records);
  void cutDown(const Digest& shelf, std::uintmax_t toBytes);
  void dropOldShelves();
  std::filesystem::path fileOf(const Digest& shelf) const;

  std::optional<std::filesystem::path> folder_;
  StoreBounds bounds_;
  MeshDigests meshDigests_;
  std::mutex mutex_;
  /// Two generations: what is used moves to the young one; when that is full the old one goes.
  Records young_, old_;
  std::set<Digest> shelvesRead_;
  struct Used {
    std::unordered_set<Digest, DigestHash> keys;
    std::uintmax_t bytes = 0;
  };
  std::map<Digest, Used> used_;                               ///< By shelf, in this run.
  std::map<Digest, std::vector<ShelfFile::Record>> unsaved_;  ///< By shelf.
  std::chrono::steady_clock::time_point saved_ = std::chrono::steady_clock::now();
};

/// Where this user's results are kept: $XDG_CACHE_HOME/swingroom/results, or with ~/.cache (XDG
/// Base Directory Specification 0.8). None: neither is said by an absolute path.
std::optional<std::filesystem::path> userResultFolder();

/// A store in that folder, or in memory only where there is none.
std::shared_ptr<ResultStore> makeUserStore();

}  // namespace swingroom
