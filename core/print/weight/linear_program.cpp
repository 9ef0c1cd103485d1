#include "core/print/weight/linear_program.h"

#include <Eigen/Core>
#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

/// Entries are scaled to about 1.
constexpr double kPivotLeast = 1e-9;

/// Rows: constraints, then the cost. Columns: variables, then the right side.
class Simplex {
 public:
  Simplex(Eigen::MatrixXd table, std::vector<Eigen::Index> basis)
      : table_(std::move(table)), basis_(std::move(basis)) {}

  /// @returns False: the cost has no bound.
  /// @param columns  Only the first so many may enter.
  bool minimise(Eigen::Index columns) {
    const Eigen::Index last = table_.cols() - 1;
    for (std::size_t turn = 0; turn < kMostTurns; ++turn) {
      const Eigen::Index entering = enteringColumn(columns, turn > kTurnsBeforeBland);
      if (entering < 0) return true;
      Eigen::Index leaving = -1;
      double best = 0;
      for (Eigen::Index row = 0; row < rows(); ++row) {
        const double by = table_(row, entering);
        if (by <= kPivotLeast) continue;
        const double ratio = table_(row, last) / by;
        const bool first = leaving < 0 || ratio < best - 1e-12;
        const bool tie =
            leaving >= 0 && ratio <= best + 1e-12 &&
            basis_[static_cast<std::size_t>(row)] < basis_[static_cast<std::size_t>(leaving)];
        if (!first && !tie) continue;
        leaving = row;
        best = first ? ratio : std::min(best, ratio);
      }
      if (leaving < 0) return false;
      pivot(leaving, entering);
    }
    return true;
  }

  void pivot(Eigen::Index row, Eigen::Index column) {
    table_.row(row) /= table_(row, column);
    for (Eigen::Index other = 0; other < table_.rows(); ++other) {
      if (other == row || table_(other, column) == 0) continue;
      table_.row(other) -= table_(other, column) * table_.row(row);
      table_(other, column) = 0;
    }
    basis_[static_cast<std::size_t>(row)] = column;
  }

  Eigen::Index rows() const { return table_.rows() - 1; }
  Eigen::MatrixXd& table() { return table_; }
  const std::vector<Eigen::Index>& basis() const { return basis_; }

 private:
  static constexpr std::size_t kMostTurns = 20'000, kTurnsBeforeBland = 2'000;

  /// The steepest column; by Bland's rule the first, which cannot go round in circles.
  Eigen::Index enteringColumn(Eigen::Index columns, bool bland) const {
    Eigen::Index found = -1;
    double steepest = -kPivotLeast;
    for (Eigen::Index column = 0; column < columns; ++column) {
      const double slope = table_(table_.rows() - 1, column);
      if (slope >= steepest) continue;
      found = column;
      if (bland) return found;
      steepest = slope;
    }
    return found;
  }

  Eigen::MatrixXd table_;
  std::vector<Eigen::Index> basis_;
};

}  // namespace

std::size_t LinearProgram::addVariable(double cost) {
  costs_.push_back(cost);
  return costs_.size() - 1;
}

void LinearProgram::addEquality(const std::vector<Term>& terms, double value) {
  rows_.push_back({terms, value});
}

void LinearProgram::addLimit(std::vector<Term> terms, double value) {
  terms.push_back({addVariable(), 1});
  addEquality(terms, value);
}

std::optional<std::vector<double>> LinearProgram::solve() const {
  const auto rows = static_cast<Eigen::Index>(rows_.size());
  const auto columns = static_cast<Eigen::Index>(costs_.size());
  const Eigen::Index last = columns + rows;  // Each row has a makeshift variable of its own.
  Eigen::MatrixXd table = Eigen::MatrixXd::Zero(rows + 1, last + 1);
  std::vector<Eigen::Index> basis;
  for (Eigen::Index row = 0; row < rows; ++row) {
    const Row& written = rows_[static_cast<std::size_t>(row)];
    for (const Term& term : written.terms) {
      table(row, static_cast<Eigen::Index>(term.variable)) += term.factor;
    }
    table(row, last) = written.value;
    const double size = table.row(row).head(columns).cwiseAbs().maxCoeff();
    if (size > 0) table.row(row) /= size;
    if (table(row, last) < 0) table.row(row) *= -1;
    table(row, columns + row) = 1;
    basis.push_back(columns + row);
    table.row(rows) -= table.row(row);
    table(rows, columns + row) = 0;
  }
  const double scale = std::max(1.0, table.col(last).head(rows).cwiseAbs().maxCoeff());
  Simplex simplex(std::move(table), std::move(basis));
  simplex.minimise(columns);
  if (simplex.table()(rows, last) < -1e-7 * scale) return std::nullopt;

  // Makeshift variables that are still in the basis are 0: they leave, or their row says nothing.
  for (Eigen::Index row = 0; row < rows; ++row) {
    if (simplex.basis()[static_cast<std::size_t>(row)] < columns) continue;
    Eigen::Index column = 0;
    if (simplex.table().row(row).head(columns).cwiseAbs().maxCoeff(&column) > kPivotLeast) {
      simplex.pivot(row, column);
    }
  }
  auto cost = simplex.table().row(rows);
  cost.setZero();
  for (Eigen::Index column = 0; column < columns; ++column) {
    cost(column) = costs_[static_cast<std::size_t>(column)];
  }
  for (Eigen::Index row = 0; row < rows; ++row) {
    const Eigen::Index in = simplex.basis()[static_cast<std::size_t>(row)];
    if (in >= columns) continue;
    const double by = costs_[static_cast<std::size_t>(in)];
    if (by != 0) simplex.table().row(rows) -= by * simplex.table().row(row);
  }
  if (!simplex.minimise(columns)) return std::nullopt;
  std::vector<double> values(costs_.size(), 0.0);
  for (Eigen::Index row = 0; row < rows; ++row) {
    const Eigen::Index in = simplex.basis()[static_cast<std::size_t>(row)];
    if (in < columns) {
      values[static_cast<std::size_t>(in)] = std::max(0.0, simplex.table()(row, last));
    }
  }
  return values;
}

}  // namespace swingroom
