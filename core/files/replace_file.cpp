#include "core/files/replace_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <string>

namespace swingroom {
namespace {

namespace fs = std::filesystem;

constexpr int kMostWriters = 16;  ///< At the same time, of one file.

Problem notSaved(const fs::path& file, const std::string& why, const std::string& hint) {
  return {file.string(), "cannot be saved: " + why, hint};
}

Problem notSaved(const fs::path& file, int error) {
  return notSaved(file, std::strerror(error), "what was there before is untouched");
}

/// What a link names, also if nothing is there yet.
fs::path followed(fs::path file) {
  constexpr int kMostLinks = 40;
  std::error_code error;
  for (int i = 0; i < kMostLinks && fs::is_symlink(file, error); ++i) {
    const fs::path next = fs::read_symlink(file, error);
    if (error) break;
    file = next.is_absolute() ? next : file.parent_path() / next;
  }
  return file;
}

/// Hidden, so that folders of part files and lists of files do not show it.
fs::path besides(const fs::path& target, int number) {
  constexpr std::size_t kLongestStem = 200;  // Names may have 255 bytes.
  const std::string name = target.filename().string().substr(0, kLongestStem);
  return target.parent_path() / ("." + name + ".saving-" + std::to_string(number));
}

/// An empty file beside `target`, held. One that is left over from a process that was killed is
/// used again.
HeldFile openBeside(const fs::path& target, fs::path& name) {
  HeldFile held;
  for (int i = 0; i < kMostWriters; ++i) {
    name = besides(target, i);
    held = HeldFile::hold(name, HeldFile::IfAbsent::make);
    if (held.isHeld()) return held;
  }
  return held;
}

/// Gives the new file the rights and, where that is allowed, the owner of the one that it replaces.
int copyRights(const struct stat& from, int descriptor) {
  if (::fchown(descriptor, from.st_uid, from.st_gid) != 0 && errno != EPERM) return errno;
  return ::fchmod(descriptor, from.st_mode & 0777) == 0 ? 0 : errno;
}

/// Everything, on the disk, or an error number.
int writeWhole(int descriptor, std::string_view bytes) {
  if (::ftruncate(descriptor, 0) != 0) return errno;
  while (!bytes.empty()) {
    const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return errno;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return ::fsync(descriptor) == 0 ? 0 : errno;
}

/// So that a power cut does not take the new name back. The new content is in place already, so
/// where a file system cannot do it nothing is wrong.
void bringToDisk(const fs::path& folder) {
  const int descriptor =
      ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return;
  ::fsync(descriptor);
  ::close(descriptor);
}

std::optional<Problem> whyNotReplaced(const fs::path& file, const fs::path& target,
                                      const struct stat& before) {
  if (S_ISDIR(before.st_mode)) {
    return notSaved(file, "a folder has that name", "save it under another name");
  }
  if (!S_ISREG(before.st_mode)) {
    return notSaved(file, "it is no plain file", "save it under another name");
  }
  // A new file could take its place all the same; but who protects a file means it.
  if ((before.st_mode & 0222) == 0 || ::access(target.c_str(), W_OK) != 0) {
    return notSaved(file, "it is write-protected", "save it under another name");
  }
  return std::nullopt;
}

}  // namespace

std::optional<Problem> replaceFile(const fs::path& file, std::string_view bytes, HeldFile* held) {
  const fs::path target = followed(file);
  struct stat before {};
  const bool isThere = ::stat(target.c_str(), &before) == 0;
  if (isThere) {
    if (auto problem = whyNotReplaced(file, target, before)) return problem;
  }
  fs::path temporary;
  HeldFile fresh = openBeside(target, temporary);
  if (!fresh.isHeld()) return notSaved(file, fresh.error());
  int failure = isThere ? copyRights(before, fresh.descriptor()) : 0;
  if (failure == 0) failure = writeWhole(fresh.descriptor(), bytes);
  if (failure == 0 && ::rename(temporary.c_str(), target.c_str()) != 0) failure = errno;
  if (failure != 0) {
    ::unlink(temporary.c_str());
    return notSaved(file, failure);
  }
  bringToDisk(target.parent_path());
  if (held) *held = std::move(fresh);
  return std::nullopt;
}

void removeLeftovers(const fs::path& file) {
  const fs::path target = followed(file);
  for (int i = 0; i < kMostWriters; ++i) {
    const fs::path left = besides(target, i);
    const HeldFile held = HeldFile::hold(left, HeldFile::IfAbsent::fail);
    if (held.isHeld()) ::unlink(left.c_str());
  }
}

}  // namespace swingroom
