#pragma once

#include <chrono>
#include <filesystem>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/files/watching/folder_signs.h"

namespace swingroom {

/// How long files are waited for.
struct SettlingTimes {
  /// After the sign that a file is whole: others that were saved with it may follow.
  std::chrono::milliseconds together{20};
  /// Files that are whole wait for others that are being written, but no longer than this.
  std::chrono::milliseconds mostTogether{500};
  /// Without such a sign (network folders): a file that has not changed for so long is looked at.
  std::chrono::milliseconds still{400};
  /// The same of a file that its writer holds open.
  std::chrono::milliseconds stillOpen{2000};
  /// A text that stops within a line, or before its last word: of formats that do not say how long
  /// they are, no reader would see that something is missing.
  std::chrono::milliseconds abrupt{1500};
  /// A file that cannot be read counts as half-written as long as it has changed within this time.
  std::chrono::milliseconds young{10'000};
};

/// A file and others that it is made of.
struct FileGroup {
  std::filesystem::path file;
  std::vector<std::filesystem::path> companions;

  bool operator==(const FileGroup&) const = default;
};

/// Says when files that other programs save are to be read: not while they are being written, and
/// again when a try has failed. Knows time and signs only from its caller; asks the disk for size,
/// time and number of a file (`fileStamp`).
class SettlingFiles {
 public:
  using Time = std::chrono::steady_clock::time_point;

  explicit SettlingFiles(const SettlingTimes& times = {}) : times_(times) {}
  void setTimes(const SettlingTimes& times) { times_ = times; }

  /// From now on these. One that is new here counts as read as it is now; if it has changed on the
  /// disk within the last two seconds, it counts as young until they are over.
  void watch(const std::vector<FileGroup>& groups, Time now);
  void note(const FileSign& sign, Time now);
  /// Looks at all files. @returns Those to be read now, by the group's first name.
  std::vector<std::filesystem::path> take(Time now);
  /// A file that was taken while it was young could not be read: it will be taken again, the last
  /// time when it is not young any more.
  void failed(const std::filesystem::path& file, Time now);
  /// It was read by somebody as it is now: nothing is left to take.
  void read(const std::filesystem::path& file);
  /// Those whose reading may fail for their writer's sake.
  std::set<std::filesystem::path> young(Time now) const;
  /// When `take` may have something; none: not before the next sign or change on the disk.
  std::optional<Time> due(Time now) const;

 private:
  struct File {
    std::string stamp;       ///< As it was seen last; empty: it is not there.
    std::string wholeStamp;  ///< As it was at the sign of being whole.
    std::optional<Time> changedAt;
    bool isOpen = false;  ///< Written since, and not closed.
    bool endsAbruptly = false;
  };
  struct Group {
    FileGroup names;
    std::vector<File> files;         ///< As `names`: the first, then its companions.
    std::string taken;               ///< Stamps of all when it was taken last.
    std::optional<Time> wholeSince;  ///< While it waits for others.
    std::optional<Time> tryAgainAt;
    int failures = 0;

    std::string stamps() const;
    std::optional<Time> changedAt() const;
  };

  Group* find(const std::filesystem::path& file, std::size_t* which = nullptr);
  static void see(Group& group, std::size_t which, const std::string& stamp);
  void look(Group& group, Time now);
  std::optional<Time> settlesAt(const Group& group) const;
  bool wants(const Group& group) const { return group.stamps() != group.taken; }

  SettlingTimes times_;
  std::vector<Group> groups_;
};

}  // namespace swingroom
