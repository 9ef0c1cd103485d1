#include "core/files/watching/folder_signs.h"

#include <sys/inotify.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstring>

namespace swingroom {
namespace {

constexpr std::uint32_t kWritten = IN_MODIFY | IN_CREATE;
constexpr std::uint32_t kWhole = IN_CLOSE_WRITE | IN_MOVED_TO;
constexpr std::uint32_t kGone = IN_DELETE | IN_MOVED_FROM;

FileSign::What meaningOf(std::uint32_t mask) {
  if (mask & kWhole) return FileSign::What::whole;
  return mask & kGone ? FileSign::What::gone : FileSign::What::written;
}

}  // namespace

FolderSigns::FolderSigns() : descriptor_(::inotify_init1(IN_NONBLOCK | IN_CLOEXEC)) {}

FolderSigns::~FolderSigns() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

void FolderSigns::watch(const std::set<std::filesystem::path>& folders) {
  if (descriptor_ < 0) return;
  std::vector<int> unwanted;
  for (const auto& [watch, folder] : folders_) {
    if (!folders.contains(folder)) unwanted.push_back(watch);
  }
  for (const int watch : unwanted) {
    ::inotify_rm_watch(descriptor_, watch);
    folders_.erase(watch);
  }
  for (const auto& folder : folders) {
    // Of one that is watched already the number stays the same.
    const int watch =
        ::inotify_add_watch(descriptor_, folder.c_str(), kWritten | kWhole | kGone | IN_ONLYDIR);
    if (watch >= 0) folders_[watch] = folder;
  }
}

std::vector<FileSign> FolderSigns::take() {
  std::vector<FileSign> signs;
  alignas(inotify_event) std::array<char, 1 << 14> buffer;
  while (descriptor_ >= 0) {
    const ssize_t size = ::read(descriptor_, buffer.data(), buffer.size());
    if (size <= 0) break;
    for (std::size_t at = 0; at < static_cast<std::size_t>(size);) {
      inotify_event event;
      std::memcpy(&event, buffer.data() + at, sizeof event);
      const char* name = buffer.data() + at + sizeof event;
      at += sizeof event + event.len;
      if (event.mask & IN_Q_OVERFLOW) signs.push_back({{}, FileSign::What::missed});
      const auto folder = folders_.find(event.wd);
      if (folder == folders_.end()) continue;
      if (event.mask & IN_IGNORED) {
        folders_.erase(folder);  // The folder is gone, and its number with it.
      } else if (event.len > 0) {
        signs.push_back({folder->second / name, meaningOf(event.mask)});
      }
    }
  }
  return signs;
}

}  // namespace swingroom
