#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/outcome.h"

namespace swingroom {

/// Gathers what is wrong and what is worth knowing in one assembly file, so that everything is told
/// in one go. Pointers are JSON pointers (RFC 6901) without the file.
class DocumentProblems {
 public:
  explicit DocumentProblems(std::string file) : file_(std::move(file)) {}

  /// What stands at `pointer` cannot be read at all. Nothing else is said of it later.
  void badForm(const std::string& pointer, std::string what, std::string hint = "");
  /// The object at `pointer` lacks `key`. Nothing else is said of that key later.
  void missing(const std::string& pointer, std::string_view key);
  /// What stands at `pointer` can be read but makes no sense; dropped if its form was bad already.
  void mistake(const std::string& pointer, std::string what, std::string hint = "");
  /// Worth knowing, not wrong.
  void note(const std::string& pointer, std::string what, std::string hint = "");
  /// A note on another file.
  void noteElsewhere(Problem note);
  /// A mistake whose place is not a pointer.
  void add(Problems mistakes);

  /// Whether what stands at `pointer` was in bad form or missing.
  bool isBadForm(const std::string& pointer) const { return badForm_.contains(pointer); }
  bool any() const { return !mistakes_.empty(); }
  /// Whether a mistake was told at `pointer` or anywhere in what it holds.
  bool anyIn(const std::string& pointer) const;
  /// The file, and pointer in it, as messages show it.
  std::string where(const std::string& pointer) const;

  /// In the order told; after the first 200 only how many more there are.
  Problems mistakes() const;
  Problems notes() const;

 private:
  std::string file_;
  Problems mistakes_;
  Problems notes_;
  std::set<std::string> badForm_;
  std::set<std::string> wrong_;  ///< Pointers of all mistakes.
};

/// `did you mean "..."?` for the one of `known` that `wrong` most likely is a slip of; empty: none
/// is near.
std::string didYouMean(std::string_view wrong, const std::vector<std::string>& known);

/// `"a", "b" and 3 more`.
std::string listed(const std::vector<std::string>& names, std::size_t most = 12);

}  // namespace swingroom
