#include "core/files/held_file.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>

namespace swingroom {
namespace {

/// Whether `file` is still the name of what is open: its last holder may have removed or replaced
/// it between our opening and our lock.
bool isStillNamed(const std::filesystem::path& file, int descriptor) {
  struct stat open {
  }, named{};
  return ::fstat(descriptor, &open) == 0 && ::lstat(file.c_str(), &named) == 0 &&
         open.st_dev == named.st_dev && open.st_ino == named.st_ino;
}

bool isPlain(int descriptor) {
  struct stat facts {};
  return ::fstat(descriptor, &facts) == 0 && S_ISREG(facts.st_mode);
}

/// 0, or why not. Where there are no locks, it goes on without.
int lock(int descriptor) {
  if (::flock(descriptor, LOCK_EX | LOCK_NB) == 0) return 0;
  const bool withoutLocks = errno == ENOLCK || errno == EOPNOTSUPP || errno == ENOSYS;
  return withoutLocks ? 0 : errno;
}

}  // namespace

HeldFile::HeldFile(HeldFile&& other) noexcept
    : descriptor_(std::exchange(other.descriptor_, -1)), error_(other.error_) {}

HeldFile& HeldFile::operator=(HeldFile&& other) noexcept {
  if (this == &other) return *this;
  release();
  descriptor_ = std::exchange(other.descriptor_, -1);
  error_ = other.error_;
  return *this;
}

HeldFile HeldFile::hold(const std::filesystem::path& file, IfAbsent ifAbsent) {
  constexpr int kMostTries = 20;
  const int make = ifAbsent == IfAbsent::make ? O_CREAT : 0;
  HeldFile held;
  for (int i = 0; i < kMostTries; ++i) {
    // A pipe in its place must not make anybody wait.
    held.descriptor_ =
        ::open(file.c_str(), O_RDWR | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK | make, 0666);
    held.error_ = held.descriptor_ < 0 ? errno : isPlain(held.descriptor_) ? 0 : EEXIST;
    if (held.error_ == 0) held.error_ = lock(held.descriptor_);
    if (held.error_ == 0 && isStillNamed(file, held.descriptor_)) return held;
    const int error = held.error_;
    held.release();
    if (error != 0) break;
    held.error_ = EWOULDBLOCK;
  }
  return held;
}

bool HeldFile::isInUse() const {
  return error_ == EWOULDBLOCK;
}

std::string HeldFile::read(std::size_t mostBytes) const {
  constexpr std::size_t kPiece = 1 << 16;
  std::string bytes;
  while (bytes.size() < mostBytes) {
    const std::size_t before = bytes.size();
    bytes.resize(std::min(mostBytes, before + kPiece));
    const ssize_t got = ::pread(descriptor_, bytes.data() + before, bytes.size() - before,
                                static_cast<off_t>(before));
    bytes.resize(before + static_cast<std::size_t>(std::max<ssize_t>(got, 0)));
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) break;
  }
  return bytes;
}

void HeldFile::release() {
  if (descriptor_ >= 0) ::close(descriptor_);
  descriptor_ = -1;
}

}  // namespace swingroom
