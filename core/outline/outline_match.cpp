#include "core/outline/outline_match.h"

#include <cmath>
#include <limits>
#include <stdexcept>

namespace swingroom {
namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();

/// Lower envelope of the parabolas f(q) + (x - q)^2 along one line.
/// @param nearest  For each x, the q that is least; -1: none.
void envelope(const std::vector<double>& f, std::vector<double>& distance,
              std::vector<int>& nearest) {
  const int n = static_cast<int>(f.size());
  std::vector<int> apex;
  std::vector<double> begins;
  for (int q = 0; q < n; ++q) {
    if (f[static_cast<std::size_t>(q)] == kFar) continue;
    double begin = -kFar;
    while (!apex.empty()) {
      const int p = apex.back();
      begin = (f[static_cast<std::size_t>(q)] + double(q) * q - f[static_cast<std::size_t>(p)] -
               double(p) * p) /
              (2.0 * (q - p));
      if (begin > begins.back()) break;
      apex.pop_back();
      begins.pop_back();
      begin = -kFar;
    }
    apex.push_back(q);
    begins.push_back(begin);
  }
  std::size_t at = 0;
  for (int x = 0; x < n; ++x) {
    const auto place = static_cast<std::size_t>(x);
    if (apex.empty()) {
      distance[place] = kFar;
      nearest[place] = -1;
      continue;
    }
    while (at + 1 < apex.size() && begins[at + 1] < x) ++at;
    const int q = apex[at];
    distance[place] = f[static_cast<std::size_t>(q)] + double(x - q) * (x - q);
    nearest[place] = q;
  }
}

/// The nearest cell of the outline for each cell of the grid, and the distance squared in cells.
class DistanceField {
 public:
  DistanceField(const CoverageGrid& grid, const std::vector<std::uint8_t>& outline)
      : columns_(grid.columns),
        squared_(outline.size(), kFar),
        column_(outline.size(), -1),
        row_(outline.size(), -1) {
    for (std::size_t i = 0; i < outline.size(); ++i) {
      if (outline[i]) squared_[i] = 0, row_[i] = static_cast<int>(i) / columns_;
    }
    for (int column = 0; column < columns_; ++column) alongColumn(column, grid.rows);
    for (int row = 0; row < grid.rows; ++row) alongRow(row);
  }

  double squared(std::size_t cell) const { return squared_[cell]; }
  std::pair<int, int> nearest(std::size_t cell) const { return {column_[cell], row_[cell]}; }

 private:
  std::size_t cell(int column, int row) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
           static_cast<std::size_t>(column);
  }

  void alongColumn(int column, int rows) {
    std::vector<double> f(static_cast<std::size_t>(rows)), d(f.size());
    std::vector<int> nearest(f.size());
    for (int row = 0; row < rows; ++row)
      f[static_cast<std::size_t>(row)] = squared_[cell(column, row)];
    envelope(f, d, nearest);
    for (int row = 0; row < rows; ++row) {
      squared_[cell(column, row)] = d[static_cast<std::size_t>(row)];
      row_[cell(column, row)] = nearest[static_cast<std::size_t>(row)];
    }
  }

  void alongRow(int row) {
    std::vector<double> f(static_cast<std::size_t>(columns_)), d(f.size());
    std::vector<int> nearest(f.size()), rowOf(f.size());
    for (int column = 0; column < columns_; ++column) {
      f[static_cast<std::size_t>(column)] = squared_[cell(column, row)];
      rowOf[static_cast<std::size_t>(column)] = row_[cell(column, row)];
    }
    envelope(f, d, nearest);
    for (int column = 0; column < columns_; ++column) {
      const int from = nearest[static_cast<std::size_t>(column)];
      squared_[cell(column, row)] = d[static_cast<std::size_t>(column)];
      column_[cell(column, row)] = from;
      row_[cell(column, row)] = from < 0 ? -1 : rowOf[static_cast<std::size_t>(from)];
    }
  }

  int columns_;
  std::vector<double> squared_;
  std::vector<int> column_, row_;
};

/// Covered cells with a neighbour that is not.
std::vector<std::uint8_t> rimOf(const Coverage& coverage) {
  std::vector<std::uint8_t> rim(coverage.inside.size(), 0);
  std::size_t i = 0;
  for (int row = 0; row < coverage.grid.rows; ++row) {
    for (int column = 0; column < coverage.grid.columns; ++column, ++i) {
      if (!coverage.inside[i]) continue;
      rim[i] = !coverage.at(column - 1, row) || !coverage.at(column + 1, row) ||
               !coverage.at(column, row - 1) || !coverage.at(column, row + 1);
    }
  }
  return rim;
}

std::optional<OutlineDeviation> farthest(const CoverageGrid& grid,
                                         const std::vector<std::uint8_t>& rim,
                                         const DistanceField& other) {
  std::optional<std::size_t> worst;
  for (std::size_t i = 0; i < rim.size(); ++i) {
    if (!rim[i] || other.squared(i) == kFar) continue;
    if (!worst || other.squared(i) > other.squared(*worst)) worst = i;
  }
  if (!worst) return std::nullopt;
  const auto columns = static_cast<std::size_t>(grid.columns);
  const auto [column, row] = other.nearest(*worst);
  return OutlineDeviation{
      grid.cellMm * std::sqrt(other.squared(*worst)),
      grid.middleOf(static_cast<int>(*worst % columns), static_cast<int>(*worst / columns)),
      grid.middleOf(column, row)};
}

}  // namespace

OutlineMatch matchOutlines(const Coverage& first, const Coverage& second) {
  if (!(first.grid == second.grid)) throw std::invalid_argument("matchOutlines: grids differ");
  OutlineMatch match;
  match.cellMm = first.grid.cellMm;
  match.firstMm2 = first.areaMm2();
  match.secondMm2 = second.areaMm2();
  std::size_t both = 0;
  for (std::size_t i = 0; i < first.inside.size(); ++i) both += first.inside[i] & second.inside[i];
  match.bothMm2 = static_cast<double>(both) * match.cellMm * match.cellMm;
  const auto firstRim = rimOf(first), secondRim = rimOf(second);
  match.firstToSecond = farthest(first.grid, firstRim, DistanceField(first.grid, secondRim));
  match.secondToFirst = farthest(first.grid, secondRim, DistanceField(first.grid, firstRim));
  return match;
}

}  // namespace swingroom
