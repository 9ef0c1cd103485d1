#include "app/viewport/section_cut.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "core/tree/point_query.h"

namespace swingroom {
namespace {

/// Ends nearer to each other than this are one point: files round.
constexpr double kSamePointMm = 1e-4;

/// The plane in the part's frame.
struct PlaneInPart {
  Vector3d normal;
  double placeMm;

  PlaneInPart(const Pose& X_WP, const ViewSection& section)
      : normal(X_WP.linear().transpose() * section.normal_W),
        placeMm(section.placeMm - section.normal_W.dot(X_WP.translation())) {}
  double beyondMm(const Vector3d& p) const { return normal.dot(p) - placeMm; }
};

/// Where the plane crosses an edge: the same bits whichever of its triangles asks.
Vector3d crossing(const Vector3d& p, const Vector3d& q, const PlaneInPart& plane) {
  const double dp = plane.beyondMm(p), dq = plane.beyondMm(q);
  const bool swapped = dp >= 0;  // From the kept end to the one beyond.
  const Vector3d &from = swapped ? q : p, &to = swapped ? p : q;
  const double d = swapped ? dq : dp, e = swapped ? dp : dq;
  return from + d / (d - e) * (to - from);
}

void cutTriangle(const TriangleCorners& t, const PlaneInPart& plane, const Pose& X_WP,
                 std::vector<std::array<Vector3d, 2>>& lines_W) {
  std::array<bool, 3> beyond{};
  for (std::size_t k = 0; k < 3; ++k) beyond[k] = plane.beyondMm(t[k]) >= 0;
  if (beyond[0] == beyond[1] && beyond[1] == beyond[2]) return;
  std::array<Vector3d, 2> line;
  for (std::size_t k = 0; k < 3; ++k) {
    const std::size_t next = (k + 1) % 3;
    if (beyond[k] != beyond[next]) line[beyond[k] ? 0 : 1] = X_WP * crossing(t[k], t[next], plane);
  }
  if (line[0].allFinite() && line[1].allFinite()) lines_W.push_back(line);
}

/// Whether at each point as many lines begin as end. Points are told apart by the cells of a grid.
bool isBalanced(const std::vector<std::array<Vector3d, 2>>& lines_W, double shift) {
  using Cell = std::array<long long, 3>;
  const auto cellOf = [shift](const Vector3d& p) {
    Cell cell{};
    for (int i = 0; i < 3; ++i)
      cell[static_cast<std::size_t>(i)] = std::llround(p[i] / (4 * kSamePointMm) + shift);
    return cell;
  };
  std::vector<std::pair<Cell, int>> ends;
  ends.reserve(2 * lines_W.size());
  for (const auto& line : lines_W) {
    ends.emplace_back(cellOf(line[0]), 1);
    ends.emplace_back(cellOf(line[1]), -1);
  }
  std::sort(ends.begin(), ends.end());
  for (std::size_t i = 0; i < ends.size();) {
    int sum = 0;
    const Cell cell = ends[i].first;
    for (; i < ends.size() && ends[i].first == cell; ++i) sum += ends[i].second;
    if (sum != 0) return false;
  }
  return true;
}

/// A point at a cell's border may fall on either side of it: then another grid is asked.
bool isClosed(const std::vector<std::array<Vector3d, 2>>& lines_W) {
  if (lines_W.empty()) return false;
  return isBalanced(lines_W, 0) || isBalanced(lines_W, 0.5) || isBalanced(lines_W, 0.27);
}

double overlapOf(const Eigen::AlignedBox3d& a, const Eigen::AlignedBox3d& b) {
  const Eigen::AlignedBox3d common = a.intersection(b);
  return common.isEmpty() ? -1 : common.volume();
}

}  // namespace

SectionCut sectionCut(const BoundingTree& tree, const Pose& X_WP, const ViewSection& section) {
  SectionCut cut;
  if (tree.empty()) return cut;
  const PlaneInPart plane(X_WP, section);
  std::vector<std::uint32_t> stack{0};
  while (!stack.empty()) {
    const auto& node = tree.nodes()[stack.back()];
    stack.pop_back();
    const double slack = 1e-9 * (1 + node.radius);
    if (std::abs(plane.beyondMm(node.centre)) > reachAlong(node, plane.normal) + slack) continue;
    if (!node.isLeaf()) {
      stack.push_back(node.first);
      stack.push_back(node.first + 1);
      continue;
    }
    for (std::uint32_t i = node.first; i < node.first + node.count; ++i)
      cutTriangle(tree.triangles()[i], plane, X_WP, cut.lines_W);
  }
  for (const auto& line : cut.lines_W) {
    for (const Vector3d& end : line)
      cut.extent.extend(Eigen::Vector2d(section.across_W.dot(end), section.along_W().dot(end)));
  }
  cut.closed = isClosed(cut.lines_W);
  return cut;
}

SectionSide sideOf(const BoundingTree::Node& box, const Pose& X_WP, const ViewSection& section) {
  const PlaneInPart plane(X_WP, section);
  const double middle = plane.beyondMm(box.centre), reach = reachAlong(box, plane.normal);
  if (middle - reach >= 0) return SectionSide::gone;
  return middle + reach < 0 ? SectionSide::kept : SectionSide::cut;
}

std::vector<int> hatchingsFor(const std::vector<Eigen::AlignedBox3d>& boxes) {
  std::vector<int> hatchings;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    std::array<double, kHatchings> taken;  // By hatching: the most that a neighbour with it shares.
    taken.fill(-1);
    for (std::size_t k = 0; k < i; ++k) {
      double& most = taken[static_cast<std::size_t>(hatchings[k])];
      if (!boxes[i].isEmpty() && !boxes[k].isEmpty())
        most = std::max(most, overlapOf(boxes[i], boxes[k]));
    }
    hatchings.push_back(
        static_cast<int>(std::min_element(taken.begin(), taken.end()) - taken.begin()));
  }
  return hatchings;
}

}  // namespace swingroom
