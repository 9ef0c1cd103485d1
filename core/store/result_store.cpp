#include "core/store/result_store.h"

#include <algorithm>
#include <cstring>

#include "core/base/user_folder.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

constexpr const char* kEnding = ".pairs";
constexpr std::uintmax_t kDiskBlock = 4096;  ///< So much at least a file takes, by and large.

/// Makes it for this user only, as the XDG specification asks.
bool makeFolder(const fs::path& folder) {
  std::error_code failure;
  if (fs::is_directory(folder, failure)) return true;
  if (!folder.has_parent_path() || folder.parent_path() == folder ||
      !makeFolder(folder.parent_path()))
    return false;
  if (!fs::create_directory(folder, failure)) return fs::is_directory(folder, failure);
  fs::permissions(folder, fs::perms::owner_all, failure);
  return true;
}

/// The time of last use is the file's: told once an hour, so that reading alone writes next to
/// nothing.
void markUsed(const fs::path& file) {
  std::error_code failure;
  const auto now = fs::file_time_type::clock::now();
  const auto before = fs::last_write_time(file, failure);
  if (!failure && now - before > std::chrono::hours(1)) fs::last_write_time(file, now, failure);
}

std::vector<fs::path> shelvesIn(const std::optional<fs::path>& folder) {
  std::vector<fs::path> shelves;
  std::error_code failure;
  if (!folder) return shelves;
  for (fs::directory_iterator entry(*folder, failure), end; !failure && entry != end;
       entry.increment(failure)) {
    if (entry->path().filename().string().find(kEnding) != std::string::npos) {
      shelves.push_back(entry->path());
    }
  }
  return shelves;
}

}  // namespace

std::size_t ResultStore::DigestHash::operator()(const Digest& digest) const {
  std::size_t hash = 0;
  std::memcpy(&hash, digest.data(), sizeof hash);
  return hash;
}

ResultStore::~ResultStore() {
  save();
}

std::optional<std::string> ResultStore::find(const Digest& shelf, const Digest& key) {
  const std::lock_guard lock(mutex_);
  readShelf(shelf);
  auto found = young_.find(key);
  if (found == young_.end()) {
    const auto older = old_.find(key);
    if (older == old_.end()) return std::nullopt;
    std::string record = std::move(older->second);
    old_.erase(older);
    found = remember(key, std::move(record));
  }
  noteUse(shelf, key, found->second.size());
  return found->second;
}

void ResultStore::keep(const Digest& shelf, const Digest& key, const std::string& record) {
  const std::lock_guard lock(mutex_);
  remember(key, record);
  if (!folder_) return;
  noteUse(shelf, key, record.size());
  unsaved_[shelf].emplace_back(key, record);
  if (std::chrono::steady_clock::now() - saved_ > bounds_.unsavedFor) saveNow();
}

void ResultStore::save() {
  const std::lock_guard lock(mutex_);
  saveNow();
}

void ResultStore::readShelf(const Digest& shelf) {
  if (!folder_ || !shelvesRead_.insert(shelf).second) return;
  const fs::path file = fileOf(shelf);
  ShelfFile(file).read(
      [&](const Digest& key, std::string_view record) { remember(key, std::string(record)); });
  markUsed(file);
}

void ResultStore::noteUse(const Digest& shelf, const Digest& key, std::size_t bytes) {
  if (!folder_) return;
  Used& used = used_[shelf];
  if (used.keys.insert(key).second) used.bytes += bytes;
}

ResultStore::Records::iterator ResultStore::remember(const Digest& key, std::string record) {
  if (young_.size() >= std::max<std::size_t>(1, bounds_.recordsInMemory / 2)) {
    old_ = std::move(young_);
    young_.clear();
  }
  return young_.insert_or_assign(key, std::move(record)).first;
}

void ResultStore::saveNow() {
  saved_ = std::chrono::steady_clock::now();
  if (!folder_ || unsaved_.empty()) return;
  const auto unsaved = std::exchange(unsaved_, {});
  if (!makeFolder(*folder_)) return;
  for (const auto& [shelf, records] : unsaved) saveShelf(shelf, records);
  dropOldShelves();
}

void ResultStore::saveShelf(const Digest& shelf, const std::vector<ShelfFile::Record>& records) {
  const std::uintmax_t mostBytes = std::max(bounds_.bytesOfShelf, 2 * used_[shelf].bytes);
  if (ShelfFile(fileOf(shelf)).append(records) > mostBytes) cutDown(shelf, mostBytes / 2);
}

/// Keeps what this run has used, then the newest records.
void ResultStore::cutDown(const Digest& shelf, std::uintmax_t toBytes) {
  const ShelfFile file(fileOf(shelf));
  std::vector<ShelfFile::Record> records;
  file.read([&](const Digest& key, std::string_view record) { records.emplace_back(key, record); });
  const auto& used = used_[shelf].keys;
  std::stable_partition(records.begin(), records.end(), [&](const ShelfFile::Record& record) {
    return !used.contains(record.first);
  });
  std::vector<ShelfFile::Record> kept;
  std::set<Digest> seen;
  std::uintmax_t bytes = 0;
  for (auto record = records.rbegin(); record != records.rend(); ++record) {
    if (!seen.insert(record->first).second) continue;
    bytes += record->second.size();
    if (bytes > toBytes) break;
    kept.push_back(std::move(*record));
  }
  std::reverse(kept.begin(), kept.end());
  file.replace(kept);
}

void ResultStore::dropOldShelves() {
  struct Shelf {
    fs::file_time_type used;
    std::uintmax_t bytes;
    fs::path file;
  };
  std::vector<Shelf> shelves;
  std::uintmax_t bytes = 0;
  std::error_code failure;
  for (fs::directory_iterator entry(*folder_, failure), end; !failure && entry != end;
       entry.increment(failure)) {
    // Half-written files of a program that was ended are counted too, and go with time.
    if (entry->path().filename().string().find(kEnding) == std::string::npos) continue;
    std::error_code gone;  // Another program drops shelves too.
    const auto size = entry->file_size(gone);
    const auto used = entry->last_write_time(gone);
    if (gone) continue;
    shelves.push_back({used, std::max(size, kDiskBlock), entry->path()});
    bytes += shelves.back().bytes;
  }
  std::sort(shelves.begin(), shelves.end(),
            [](const Shelf& a, const Shelf& b) { return a.used < b.used; });
  for (const Shelf& shelf : shelves) {
    if (bytes <= bounds_.bytesOnDisk) break;
    fs::remove(shelf.file, failure);
    bytes -= shelf.bytes;
  }
}

void ResultStore::clear() {
  const std::lock_guard lock(mutex_);
  young_.clear();
  old_.clear();
  shelvesRead_.clear();
  used_.clear();
  unsaved_.clear();
  std::error_code failure;
  for (const fs::path& shelf : shelvesIn(folder_)) fs::remove(shelf, failure);
}

std::uintmax_t ResultStore::bytesOnDisk() const {
  std::uintmax_t bytes = 0;
  for (const fs::path& shelf : shelvesIn(folder_)) {
    std::error_code gone;
    const auto size = fs::file_size(shelf, gone);
    if (!gone) bytes += size;
  }
  return bytes;
}

fs::path ResultStore::fileOf(const Digest& shelf) const {
  return *folder_ / (toHex(shelf).substr(0, 32) + kEnding);
}

std::optional<fs::path> userResultFolder() {
  const auto folder = userFolder(UserFolder::cache);
  return folder ? std::optional(*folder / "results") : std::nullopt;
}

std::shared_ptr<ResultStore> makeUserStore() {
  return std::make_shared<ResultStore>(userResultFolder());
}

}  // namespace swingroom
