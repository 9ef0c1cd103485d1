#include "core/files/watching/settling_files.h"

#include <algorithm>

#include "core/files/mesh_memory.h"
#include "core/files/watching/file_end.h"

namespace swingroom {
namespace {

constexpr std::chrono::milliseconds kJustBefore{2000};

using Time = SettlingFiles::Time;
using std::chrono::milliseconds;

/// How long ago the file changed, by the disk's clock; none: it is not there. Network disks may
/// have clocks of their own: what lies in the future changed just now.
std::optional<milliseconds> ageOf(const std::filesystem::path& file) {
  std::error_code error;
  const auto changed = std::filesystem::last_write_time(file, error);
  if (error) return std::nullopt;
  const auto age = std::filesystem::file_time_type::clock::now() - changed;
  return std::max(milliseconds(0), std::chrono::duration_cast<milliseconds>(age));
}

/// 0.1 s, then twice as long each time, 2 s in the end.
milliseconds pauseAfter(int failures) {
  return milliseconds(std::min(2000, 100 << std::min(failures, 6)));
}

}  // namespace

std::string SettlingFiles::Group::stamps() const {
  std::string all;
  for (const File& file : files) all += (file.stamp.empty() ? "gone" : file.stamp) + ", ";
  return all;
}

std::optional<Time> SettlingFiles::Group::changedAt() const {
  std::optional<Time> last;
  for (const File& file : files) {
    if (file.changedAt && (!last || *file.changedAt > *last)) last = file.changedAt;
  }
  return last;
}

SettlingFiles::Group* SettlingFiles::find(const std::filesystem::path& file, std::size_t* which) {
  for (Group& group : groups_) {
    if (group.names.file == file) {
      if (which) *which = 0;
      return &group;
    }
    const auto& others = group.names.companions;
    const auto found = std::find(others.begin(), others.end(), file);
    if (found == others.end()) continue;
    if (which) *which = 1 + static_cast<std::size_t>(found - others.begin());
    return &group;
  }
  return nullptr;
}

void SettlingFiles::watch(const std::vector<FileGroup>& groups, Time now) {
  std::vector<Group> watched;
  for (const FileGroup& names : groups) {
    Group* known = find(names.file);
    if (known && known->names == names) {
      watched.push_back(*known);
      continue;
    }
    Group& fresh = watched.emplace_back();
    fresh.names = names;
    fresh.files.resize(1 + names.companions.size());
    for (std::size_t i = 0; i < fresh.files.size(); ++i) {
      const auto& name = i == 0 ? names.file : names.companions[i - 1];
      fresh.files[i].stamp = fileStamp(name);
      const auto age = ageOf(name);
      const milliseconds lately = std::min(kJustBefore, times_.young);
      if (age && *age < lately) fresh.files[i].changedAt = now - *age - (times_.young - lately);
    }
    // A file that has got companions was read with them, unless it waits to be read.
    if (!known || !wants(*known)) fresh.taken = fresh.stamps();
  }
  groups_ = std::move(watched);
}

void SettlingFiles::note(const FileSign& sign, Time now) {
  std::size_t which = 0;
  Group* group = find(sign.file, &which);
  if (!group) return;
  File& file = group->files[which];
  file.changedAt = now;
  file.isOpen = sign.what == FileSign::What::written;
  file.wholeStamp.clear();
  group->tryAgainAt.reset();
  group->failures = 0;
  if (sign.what != FileSign::What::whole) return;
  see(*group, which, fileStamp(sign.file));
  file.wholeStamp = file.stamp;
}

void SettlingFiles::see(Group& group, std::size_t which, const std::string& stamp) {
  File& file = group.files[which];
  if (stamp == file.stamp) return;
  file.stamp = stamp;
  file.endsAbruptly = which == 0 && endsAbruptly(group.names.file);
}

void SettlingFiles::look(Group& group, Time now) {
  for (std::size_t i = 0; i < group.files.size(); ++i) {
    const auto& name = i == 0 ? group.names.file : group.names.companions[i - 1];
    const std::string stamp = fileStamp(name);
    if (stamp == group.files[i].stamp) continue;
    see(group, i, stamp);
    group.files[i].changedAt = now;
    group.tryAgainAt.reset();
    group.failures = 0;
  }
}

/// When all of it may be taken as whole; none: it was never seen to change.
std::optional<Time> SettlingFiles::settlesAt(const Group& group) const {
  if (group.tryAgainAt) return group.tryAgainAt;
  std::optional<Time> last;
  for (const File& file : group.files) {
    if (!file.changedAt) continue;
    const bool whole = !file.stamp.empty() && file.stamp == file.wholeStamp;
    milliseconds pause = file.stamp.empty() ? times_.young
                         : whole            ? times_.together
                         : file.isOpen      ? times_.stillOpen
                                            : times_.still;
    if (file.endsAbruptly) pause = std::max(pause, times_.abrupt);
    const Time at = *file.changedAt + pause;
    if (!last || at > *last) last = at;
  }
  return last;
}

std::vector<std::filesystem::path> SettlingFiles::take(Time now) {
  std::vector<Group*> whole;
  bool othersMove = false;
  for (Group& group : groups_) {
    look(group, now);
    if (!wants(group)) {
      group.wholeSince.reset();
      continue;
    }
    const auto at = settlesAt(group);
    if (at && *at > now) {
      const bool isThere = !group.files[0].stamp.empty();
      othersMove = othersMove || (isThere && !group.tryAgainAt);
      group.wholeSince.reset();
      continue;
    }
    if (!group.wholeSince) group.wholeSince = now;
    whole.push_back(&group);
  }
  const bool wait = othersMove && std::none_of(whole.begin(), whole.end(), [&](const Group* group) {
                      return now - *group->wholeSince >= times_.mostTogether;
                    });
  std::vector<std::filesystem::path> taken;
  if (wait) return taken;
  for (Group* group : whole) {
    group->taken = group->stamps();
    group->wholeSince.reset();
    group->tryAgainAt.reset();
    taken.push_back(group->names.file);
  }
  return taken;
}

void SettlingFiles::failed(const std::filesystem::path& file, Time now) {
  Group* group = find(file);
  if (!group) return;
  const auto changed = group->changedAt();
  if (!changed) return;
  // Once more when it has come of age: then nobody waits for it any longer.
  const Time grownUp = *changed + times_.young;
  group->taken.clear();
  group->tryAgainAt = std::max(now, std::min(now + pauseAfter(group->failures++), grownUp));
}

std::set<std::filesystem::path> SettlingFiles::young(Time now) const {
  std::set<std::filesystem::path> young;
  for (const Group& group : groups_) {
    const auto changed = group.changedAt();
    if (changed && now < *changed + times_.young) young.insert(group.names.file);
  }
  return young;
}

std::optional<Time> SettlingFiles::due(Time now) const {
  std::optional<Time> first;
  for (const Group& group : groups_) {
    if (!wants(group)) continue;
    const auto settles = settlesAt(group);
    Time at = settles.value_or(now);
    if (group.wholeSince)
      at = std::max(at, std::min(*group.wholeSince + times_.mostTogether, now + milliseconds(50)));
    if (!first || at < *first) first = at;
  }
  return first;
}

}  // namespace swingroom
