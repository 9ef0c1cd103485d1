#include "core/files/loading/name_index.h"

#include <algorithm>

#include "core/base/ensure.h"

namespace swingroom {

void NameIndex::add(const std::string& name, std::size_t index, const std::string& pointer,
                    DocumentProblems& problems) {
  const bool blank = std::all_of(name.begin(), name.end(), [](char c) { return c == ' '; });
  if (blank) {
    problems.mistake(pointer, "is empty: every " + noun_ + " needs a name");
    return;
  }
  if (!byName_.emplace(name, index).second) {
    problems.mistake(pointer,
                     "is " + inQuotes(name) + ", the name of " + noun_ + " " +
                         std::to_string(byName_.at(name) + 1) + " already",
                     "give each " + noun_ + " a name of its own");
    return;
  }
  names_.push_back(name);
}

void NameIndex::append(const std::string& name, std::size_t index) {
  SWINGROOM_ENSURE(byName_.emplace(name, index).second);
  names_.push_back(name);
}

std::optional<std::size_t> NameIndex::find(const std::string& name, const std::string& pointer,
                                           DocumentProblems& problems) const {
  const auto found = byName_.find(name);
  if (found != byName_.end()) return found->second;
  if (!silent_) {
    problems.mistake(pointer, "names " + noun_ + " " + inQuotes(name) + ", which is not there",
                     didYouMean(name, names_));
  }
  return std::nullopt;
}

}  // namespace swingroom
