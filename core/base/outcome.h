#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace swingroom {

/// Something wrong, or worth knowing, about data from outside. Printed as `where: what (hint)`.
struct Problem {
  std::string where;  ///< File, and JSON pointer, line or triangle in it.
  std::string what;   ///< One clear clause, in the words of the user.
  std::string hint;   ///< What to do about it; may be empty.

  bool operator==(const Problem&) const = default;
};

/// `where: what (hint)`.
std::string toText(const Problem& problem);

using Problems = std::vector<Problem>;

/// A value, or everything that is wrong with the data it should have been made from.
/// For data from outside only: a wrong call throws, our own mistakes end in `ensure`.
template <typename T>
class [[nodiscard]] Outcome {
 public:
  Outcome(T value) : value_(std::move(value)) {}
  Outcome(Problem problem) : problems_{std::move(problem)} {}
  Outcome(Problems problems) : problems_(std::move(problems)) {}

  bool ok() const { return value_.has_value(); }
  explicit operator bool() const { return ok(); }
  T& value() & { return value_.value(); }
  const T& value() const& { return value_.value(); }
  T&& value() && { return std::move(value_).value(); }
  T& operator*() & { return value(); }
  const T& operator*() const& { return value(); }
  T* operator->() { return &value(); }
  const T* operator->() const { return &value(); }
  /// Not empty exactly when there is no value.
  const Problems& problems() const { return problems_; }

 private:
  std::optional<T> value_;
  Problems problems_;
};

}  // namespace swingroom
