#pragma once

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/base/outcome.h"
#include "core/files/document/assembly_document.h"

/// What edits of modes, ways, steps and parts share: names, and all places of a document that hold
/// them.
namespace swingroom::edits {

using Edited = Outcome<AssemblyDocument>;

template <typename Named>
std::set<std::string> namesIn(const std::vector<Named>& list) {
  std::set<std::string> names;
  for (const Named& one : list) names.insert(one.name);
  return names;
}

/// Null: no entry has that name.
template <typename List>
auto* findNamed(List& list, const std::string& name) {
  for (auto& one : list) {
    if (one.name == name) return &one;
  }
  return static_cast<decltype(&list.front())>(nullptr);
}

/// `wanted`, or with the first number behind it that makes it a name of its own.
std::string freeName(const std::string& wanted, const std::set<std::string>& taken);

/// Without blanks at its ends.
std::string trimmed(const std::string& name);

/// Why `name` cannot be the new name of `where`; none: it can.
std::optional<Problem> nameProblem(const std::string& where, const std::string& name,
                                   const std::set<std::string>& taken);

/// The answer to a name that is not there.
Problem notThere(const std::string& where);

/// Calls `change` with every contact's list of modes and of steps, those of variants included.
/// Only lists that it changes are written anew.
using NamesChange =
    std::function<void(std::vector<std::string>& modes, std::vector<std::string>& steps)>;
void forEachContact(AssemblyDocument& document, const NamesChange& change);
/// The same without changing anything.
void forEachContact(const AssemblyDocument& document,
                    const std::function<void(const std::vector<std::string>& modes,
                                             const std::vector<std::string>& steps)>& visit);

/// The name that takes the place of another; the same: it stays.
using NewName = std::function<std::string(const std::string& name)>;

/// Replaces a name in a list; a second mention of the new one goes.
void replaceName(std::vector<std::string>& names, const std::string& from, const std::string& to);
/// Puts `added` behind `name`, where that is in the list.
void addBehind(std::vector<std::string>& names, const std::string& name, const std::string& added);
bool contains(const std::vector<std::string>& names, const std::string& name);

/// Takes these modes and steps out of all contacts. Contacts that then cover nothing go, and rules
/// that then say nothing.
/// @returns How many contacts went.
std::size_t forget(AssemblyDocument& document, const std::set<std::string>& modes,
                   const std::set<std::string>& steps);

/// In a map by names.
template <typename Map>
void renameKey(Map& map, const std::string& from, const std::string& to) {
  auto node = map.extract(from);
  if (node.empty()) return;
  node.key() = to;
  map.insert(std::move(node));
}

/// Renames a joint in all that variants replace.
void renameJointInVariants(AssemblyDocument& document, const std::string& from,
                           const std::string& to);
/// Takes what variants put in the place of these parts and joints, and of pairs with such a part,
/// out of them.
/// @returns How many entries went.
std::size_t forgetInVariants(AssemblyDocument& document, const std::set<std::string>& parts,
                             const std::set<std::string>& joints);

/// Calls the processes that variants give to parts as `nowCalled` answers.
void renameProcessesInVariants(AssemblyDocument& document, const NewName& nowCalled);

/// Renames a part in all that variants replace.
void renamePartInVariants(AssemblyDocument& document, const std::string& from,
                          const std::string& to);

}  // namespace swingroom::edits
