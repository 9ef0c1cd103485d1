#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/files/document/document_problems.h"
#include "core/files/document/json_value.h"

namespace swingroom {

/// Finds the entries of one of the file's lists by name.
class NameIndex {
 public:
  NameIndex() = default;

  /// Tells names that are empty or stand twice.
  /// @param pointer Of the list, e.g. "/parts".
  /// @param noun What an entry is called in messages, e.g. "part".
  template <typename Named>
  NameIndex(const std::vector<Named>& list, const std::string& pointer, std::string noun,
            DocumentProblems& problems)
      : noun_(std::move(noun)) {
    for (std::size_t i = 0; i < list.size(); ++i) {
      add(list[i].name, i, pointerTo(pointerTo(pointer, i), "name"), problems);
    }
  }

  /// One more entry, after all others, whose name is free.
  void append(const std::string& name, std::size_t index);

  bool has(const std::string& name) const { return byName_.contains(name); }

  /// Position in the list; tells at `pointer` if there is no such name.
  std::optional<std::size_t> find(const std::string& name, const std::string& pointer,
                                  DocumentProblems& problems) const;

  /// From now on names that are not found are not told: the list is known not to be whole.
  void beSilent() { silent_ = true; }

 private:
  void add(const std::string& name, std::size_t index, const std::string& pointer,
           DocumentProblems& problems);

  std::string noun_;
  std::map<std::string, std::size_t> byName_;
  std::vector<std::string> names_;
  bool silent_ = false;
};

}  // namespace swingroom
