#pragma once

#include <optional>
#include <string>
#include <vector>

/// How the two sides of an assembly are called in names: "thigh_port" and "thigh_starboard".
namespace swingroom::edits {

struct SideWords {
  std::string here;   ///< This side's; empty: its names carry none.
  std::string there;  ///< The other side's; not empty.

  bool operator==(const SideWords&) const = default;
};

/// Whether `name` has `word` as a word of its own: "port" in "thigh_port", "Port thigh" and
/// "thighPort", but not in "support" or "portal".
bool hasWord(const std::string& name, const std::string& word);

/// `name` with `to` in the place of the word `from`, written as that is (small, Capital, ALL);
/// none: it does not have it.
std::optional<std::string> withWord(const std::string& name, const std::string& from,
                                    const std::string& to);

/// With a word added behind it: "thigh_port", or "hip port" where names have blanks.
/// @param blank  What stands between words of a name that has one only.
std::string addWord(const std::string& name, const std::string& word, char blank);

/// This side's name as it should be, and the other side's.
struct SidePair {
  std::string here, there;
};
SidePair sideNames(const std::string& name, const SideWords& words, char blank);

/// Words that are often used for two sides and that names of this list carry, the best first;
/// always ends with port and starboard, left and right.
std::vector<SideWords> likelyWords(const std::vector<std::string>& names);

}  // namespace swingroom::edits
