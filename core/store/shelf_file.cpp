#include "core/store/shelf_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cstring>

namespace swingroom {
namespace {

constexpr std::string_view kMark =
    "\xF1swr\r\n\x1A\x01";  ///< Its last byte is the format's version.
constexpr std::size_t kSumBytes = 8;
constexpr std::size_t kHeadBytes = kMark.size() + sizeof(std::uint32_t) + sizeof(Digest);
constexpr std::uintmax_t kMostReadBytes = 64u << 20;  ///< Larger files are not ours.

/// An open file; closed at the end.
class OpenFile {
 public:
  OpenFile(const std::filesystem::path& file, int flags)
      : handle_(::open(file.c_str(), flags | O_CLOEXEC, 0600)) {}
  ~OpenFile() {
    if (handle_ >= 0) ::close(handle_);
  }
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;

  bool isOpen() const { return handle_ >= 0; }
  std::uintmax_t size() const {
    struct stat facts {};
    return ::fstat(handle_, &facts) == 0 && S_ISREG(facts.st_mode)
               ? static_cast<std::uintmax_t>(facts.st_size)
               : 0;
  }
  bool write(std::string_view bytes) const {
    while (!bytes.empty()) {
      const ssize_t written = ::write(handle_, bytes.data(), bytes.size());
      if (written <= 0) return false;
      bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return true;
  }
  std::string readAll() const {
    std::string bytes(std::min(size(), kMostReadBytes), '\0');
    std::size_t done = 0;
    while (done < bytes.size()) {
      const ssize_t got = ::read(handle_, bytes.data() + done, bytes.size() - done);
      if (got <= 0) break;
      done += static_cast<std::size_t>(got);
    }
    bytes.resize(done);
    return bytes;
  }

 private:
  int handle_;
};

std::string_view sumOf(std::string_view bytes, Digest& place) {
  Hasher hasher;
  hasher.add(bytes.data(), bytes.size());
  place = hasher.take();
  return {reinterpret_cast<const char*>(place.data()), kSumBytes};
}

std::string bytesOf(const std::vector<ShelfFile::Record>& records) {
  std::string all;
  for (const auto& [key, content] : records) {
    const std::size_t from = all.size();
    const auto size = static_cast<std::uint32_t>(content.size());
    all += kMark;
    all.append(reinterpret_cast<const char*>(&size), sizeof size);
    all.append(reinterpret_cast<const char*>(key.data()), key.size());
    all += content;
    Digest sum;
    all += sumOf(std::string_view(all).substr(from), sum);
  }
  return all;
}

/// The record that begins at the front of `bytes`, if it is sound: its length, with `take` called.
std::size_t takeFirst(std::string_view bytes,
                      const std::function<void(const Digest&, std::string_view)>& take) {
  if (bytes.size() < kHeadBytes + kSumBytes) return 0;
  std::uint32_t size = 0;
  std::memcpy(&size, bytes.data() + kMark.size(), sizeof size);
  if (size > bytes.size() - kHeadBytes - kSumBytes) return 0;
  Digest sum;
  if (bytes.substr(kHeadBytes + size, kSumBytes) != sumOf(bytes.substr(0, kHeadBytes + size), sum))
    return 0;
  Digest key;
  std::memcpy(key.data(), bytes.data() + kMark.size() + sizeof size, key.size());
  take(key, bytes.substr(kHeadBytes, size));
  return kHeadBytes + size + kSumBytes;
}

}  // namespace

void ShelfFile::read(const std::function<void(const Digest&, std::string_view)>& take) const {
  // A pipe or device in its place must not make anybody wait.
  const OpenFile open(file_, O_RDONLY | O_NONBLOCK);
  if (!open.isOpen()) return;
  const std::string all = open.readAll();
  std::string_view rest = all;
  // After damage it goes on at the next mark.
  for (auto at = rest.find(kMark); at != rest.npos; at = rest.find(kMark)) {
    rest.remove_prefix(at);
    rest.remove_prefix(std::max<std::size_t>(takeFirst(rest, take), 1));
  }
}

std::uintmax_t ShelfFile::append(const std::vector<Record>& records) const {
  const OpenFile open(file_, O_WRONLY | O_APPEND | O_CREAT | O_NONBLOCK);
  // One call: local file systems let nobody in between. Where one does, the sums tell.
  if (!open.isOpen()) return 0;
  return open.write(bytesOf(records)) ? open.size() : 0;
}

void ShelfFile::replace(const std::vector<Record>& records) const {
  std::string pattern = file_.string() + ".new-XXXXXX";
  const int handle = ::mkstemp(pattern.data());
  if (handle < 0) return;
  ::close(handle);
  bool written = false;
  {
    const OpenFile open(pattern, O_WRONLY);
    written = open.isOpen() && open.write(bytesOf(records));
  }
  if (!written || ::rename(pattern.c_str(), file_.c_str()) != 0) ::unlink(pattern.c_str());
}

}  // namespace swingroom
