#pragma once

#include <optional>
#include <vector>

namespace swingroom {

/// A small linear program: variables that are not negative, linear rows, one linear cost. For some
/// hundred variables; dense.
class LinearProgram {
 public:
  struct Term {
    std::size_t variable;
    double factor;
  };

  /// @returns Its index.
  std::size_t addVariable(double cost = 0);
  /// Sum of the terms = `value`.
  void addEquality(const std::vector<Term>& terms, double value);
  /// Sum of the terms <= `value`.
  void addLimit(std::vector<Term> terms, double value);

  std::size_t variables() const { return costs_.size(); }

  /// Values of the variables at the least cost; none if the rows contradict each other, or the
  /// cost has no bound. The simplex method in two phases; the same answer at each call.
  std::optional<std::vector<double>> solve() const;

 private:
  struct Row {
    std::vector<Term> terms;
    double value = 0;
  };
  std::vector<double> costs_;
  std::vector<Row> rows_;
};

}  // namespace swingroom
