#pragma once

#include <filesystem>
#include <map>
#include <set>
#include <vector>

namespace swingroom {

/// Something happened to a file.
struct FileSign {
  enum class What {
    written,  ///< Somebody writes it, and has not come to the end.
    whole,    ///< Its writer has closed it, or it was put in place by renaming.
    gone,
    missed  ///< So much happened that not all of it is known; `file` is empty.
  };
  std::filesystem::path file;
  What what = What::written;

  bool operator==(const FileSign&) const = default;
};

/// Hears from the system (inotify(7)) what happens to files in some folders. Of what other
/// computers do to a network folder it hears nothing, and without the system's leave nothing at
/// all: whoever must not miss a change looks at the files now and then too. Not for several threads
/// at once.
class FolderSigns {
 public:
  FolderSigns();
  ~FolderSigns();
  FolderSigns(const FolderSigns&) = delete;
  FolderSigns& operator=(const FolderSigns&) = delete;

  /// Readable, as poll(2) has it, when there are signs to take; -1: nothing is ever heard.
  int descriptor() const { return descriptor_; }
  /// From now on these, those that are there; again for a folder that was away.
  void watch(const std::set<std::filesystem::path>& folders);
  /// What has happened since the last call, in order. Never waits.
  std::vector<FileSign> take();

 private:
  int descriptor_ = -1;
  std::map<int, std::filesystem::path> folders_;  ///< By inotify's number.
};

}  // namespace swingroom
