#include "core/print/set/bed_fit.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <queue>
#include <vector>

namespace swingroom {
namespace {

using Eigen::Matrix3d;

constexpr double kBedAccurateMm = 0.1;
constexpr double kBedRounding = 1e-9;  // Of a size as large as the bed.

/// The corners that are outermost in many directions; they stand for all in bounds from below.
std::vector<Vector3d> outermostCorners(const TriangleMesh& mesh) {
  constexpr int kDirections = 600;
  std::vector<std::size_t> found;
  for (int i = 0; i < kDirections; ++i) {
    // A spiral from pole to pole (Saff and Kuijlaars, Mathematical Intelligencer 19, 1997).
    const double z = 1 - (2.0 * i + 1) / kDirections;
    const double r = std::sqrt(1 - z * z), angle = i * kPi * (3 - std::sqrt(5.0));
    const Vector3d u(r * std::cos(angle), r * std::sin(angle), z);
    std::size_t best = 0;
    double farthest = -std::numeric_limits<double>::infinity();
    for (std::size_t v = 0; v < mesh.vertices.size(); ++v) {
      const double height = u.dot(mesh.vertices[v]);
      if (height > farthest) {
        farthest = height;
        best = v;
      }
    }
    found.push_back(best);
  }
  std::sort(found.begin(), found.end());
  found.erase(std::unique(found.begin(), found.end()), found.end());
  std::vector<Vector3d> corners;
  for (const std::size_t v : found) corners.push_back(mesh.vertices[v]);
  return corners;
}

/// How long `across` is at least along `u` turned by up to `reach`.
double bedLeastAlong(const Vector3d& across, const Vector3d& u, double reach) {
  const double length = across.norm();
  if (length == 0) return 0;
  const double angle = std::acos(std::clamp(across.dot(u) / length, -1.0, 1.0));
  return length * std::cos(std::min(kPi, angle + reach));
}

std::pair<Vector3d, Vector3d> bedEnds(const std::vector<Vector3d>& corners, const Vector3d& u) {
  const auto lower = [&](const Vector3d& a, const Vector3d& b) { return a.dot(u) < b.dot(u); };
  const auto [low, high] = std::minmax_element(corners.begin(), corners.end(), lower);
  return {*low, *high};
}

/// Never more than the least width over all directions, and near it: branch and bound over squares
/// of the sides of a cube. Every axis of the bed has to hold at least that.
double leastWidth(const std::vector<Vector3d>& corners) {
  struct Square {
    int side;
    double x, y, half, lower;
    bool operator<(const Square& o) const { return lower > o.lower; }
  };
  constexpr std::size_t kSquares = 40'000;
  std::priority_queue<Square> open;
  double upper = std::numeric_limits<double>::infinity();
  const auto push = [&](int side, double x, double y, double half) {
    Vector3d u;
    u[side] = 1;
    u[(side + 1) % 3] = x;
    u[(side + 2) % 3] = y;
    u.normalize();
    const auto [low, high] = bedEnds(corners, u);
    upper = std::min(upper, (high - low).dot(u));
    // Projecting on the sphere brings directions only nearer.
    const double reach = 2 * std::asin(std::min(1.0, half * std::sqrt(2.0) / 2));
    open.push({side, x, y, half, bedLeastAlong(high - low, u, reach)});
  };
  for (int side = 0; side < 3; ++side) push(side, 0, 0, 1);
  for (std::size_t looked = 3; looked < kSquares && open.top().lower < upper - kBedAccurateMm;
       looked += 4) {
    const Square square = open.top();
    open.pop();
    for (int k = 0; k < 4; ++k) {
      const double half = square.half / 2;
      push(square.side, square.x + (k & 1 ? half : -half), square.y + (k & 2 ? half : -half), half);
    }
  }
  return open.top().lower;
}

/// A cube of turns: quaternions (1, x, y, z). All turns are in that of half side 1, up to half
/// turns of the bed: those exchange the components, so that the first can be the greatest.
struct TurnCube {
  Vector3d middle = Vector3d::Zero();
  double half = 1;
  double overLowerMm = 0;  ///< Of all turns in it.

  Matrix3d turn() const {
    return Eigen::Quaterniond(1, middle.x(), middle.y(), middle.z())
        .normalized()
        .toRotationMatrix();
  }
  /// No turn in it is farther from the middle one. Projecting on the unit sphere only brings
  /// quaternions nearer, as none is inside it; a turn is twice the angle between them.
  double reachRad() const { return 4 * std::asin(std::min(1.0, half * std::sqrt(3.0) / 2)); }
  bool operator<(const TurnCube& other) const { return overLowerMm > other.overLowerMm; }
};

class BedSearch {
 public:
  BedSearch(const TriangleMesh& mesh, const std::array<double, 3>& bedMm)
      : mesh_(mesh), bed_(bedMm[0], bedMm[1], bedMm[2]), corners_(outermostCorners(mesh)) {
    best_.overUpperMm = std::numeric_limits<double>::infinity();
    reach_ = boundsOf(mesh).sizes().maxCoeff();
  }

  BedFit search(std::size_t budget) {
    std::priority_queue<TurnCube> open;
    const double thinnest = leastWidth(corners_) - bed_.minCoeff();
    push(Vector3d::Zero(), 1, open);
    const auto lower = [&] { return std::max(thinnest, open.top().overLowerMm); };
    for (std::size_t looked = 1; looked + 8 < budget && !settled(lower());) {
      const TurnCube cube = open.top();
      open.pop();
      for (int k = 0; k < 8; ++k, ++looked) {
        const Vector3d side(k & 1 ? 1 : -1, k & 2 ? 1 : -1, k & 4 ? 1 : -1);
        push(cube.middle + cube.half / 2 * side, cube.half / 2, open);
      }
    }
    best_.overLowerMm = std::min(lower(), best_.overUpperMm);
    if (best_.overUpperMm <= kBedRounding) {
      best_.verdict = BedVerdict::fits;
    } else if (best_.overLowerMm > kBedRounding) {
      best_.verdict = BedVerdict::doesNotFit;
    }
    return best_;
  }

 private:
  bool settled(double lower) const {
    const bool isKnown = lower > kBedRounding;
    const double accurate = isKnown ? std::max(kBedAccurateMm, reach_ / 100) : kBedAccurateMm;
    return best_.overUpperMm <= kBedRounding || lower >= best_.overUpperMm - accurate;
  }

  void push(const Vector3d& middle, double half, std::priority_queue<TurnCube>& open) {
    TurnCube cube{middle, half, 0};
    const Matrix3d R = cube.turn();
    double over = -std::numeric_limits<double>::infinity(), lower = over;
    for (int axis = 0; axis < 3; ++axis) {
      const Vector3d u = R.row(axis);
      const auto [low, high] = bedEnds(corners_, u);
      const Vector3d across = high - low;
      over = std::max(over, across.dot(u) - bed_[axis]);
      lower = std::max(lower, bedLeastAlong(across, u, cube.reachRad()) - bed_[axis]);
    }
    // All corners only where it may be the best: the outermost of 600 directions miss little.
    if (over < best_.overUpperMm) offer(R);
    cube.overLowerMm = lower;
    open.push(cube);
  }

  void offer(const Matrix3d& R) {
    const Vector3d size = sizeOf(mesh_, R);
    const double over = (size - bed_).maxCoeff();
    if (over >= best_.overUpperMm) return;
    best_.overUpperMm = over;
    best_.R_BP = R;
    best_.sizeMm = size;
  }

  const TriangleMesh& mesh_;
  Vector3d bed_;
  std::vector<Vector3d> corners_;
  double reach_ = 0;
  BedFit best_;
};

}  // namespace

Vector3d sizeOf(const TriangleMesh& mesh, const Eigen::Matrix3d& R_BP) {
  Eigen::AlignedBox3d box;
  for (const Vector3d& p : mesh.vertices) box.extend(Vector3d(R_BP * p));
  return box.isEmpty() ? Vector3d(0, 0, 0) : Vector3d(box.sizes());
}

BedFit bedFit(const TriangleMesh& mesh, const std::array<double, 3>& bedMm, std::size_t budget) {
  if (mesh.vertices.empty()) return {};
  return BedSearch(mesh, bedMm).search(budget);
}

}  // namespace swingroom
