#include "core/print/cautions/small_parts.h"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "core/mesh/mass_properties.h"
#include "core/print/cautions/axis_cells.h"

namespace swingroom {
namespace {

using Eigen::Vector2d;

/// Cells of axis directions and of turns that are looked at for one part.
constexpr std::size_t kMostCells = 150'000, kMostTurnCells = 60'000;
constexpr double kFinestRad = 2e-3;

double farthest(const std::vector<Vector3d>& points, const Vector3d& direction) {
  double most = -std::numeric_limits<double>::infinity();
  for (const Vector3d& p : points) most = std::max(most, direction.dot(p));
  return most;
}

class SmallPartSearch {
 public:
  SmallPartSearch(const TriangleMesh& mesh, const SmallPartsCylinder& cylinder)
      : mesh_(mesh),
        cylinder_(cylinder),
        outer_(outerPoints(mesh)),
        hole_(outer_, cylinder.diameterMm / 2) {}

  SmallPartAnswer run() {
    if (mesh_.vertices.empty()) return {};
    if (isTooLong()) return {PassAnswer::no, std::nullopt};
    for (const Vector3d& up : likelyAxes()) {
      if (const auto X = placedAlong(up)) return {PassAnswer::yes, X};
    }
    std::vector<AxisCell> cells = wholeSphere();
    bool undecided = false;
    std::size_t looked = 0;
    while (!cells.empty()) {
      std::vector<AxisCell> next;
      for (const AxisCell& cell : cells) {
        ++looked;
        if (hole_.isTooWide(cell)) continue;
        if (shadowCircle(outer_.points, squareTo(cell.middle())).radius <= radius()) {
          if (isTooDeep(cell)) continue;
          if (const auto X = placedAlong(cell.middle())) return {PassAnswer::yes, X};
        }
        if (cell.radiusRad() > kFinestRad && looked < kMostCells) {
          for (const AxisCell& quarter : cell.quartered()) next.push_back(quarter);
        } else {
          undecided = true;
        }
      }
      cells = std::move(next);
    }
    if (!undecided) return {PassAnswer::no, std::nullopt};
    if (const auto X = climbed()) return {PassAnswer::yes, X};
    return {PassAnswer::maybe, std::nullopt};
  }

 private:
  double radius() const { return cylinder_.diameterMm / 2; }

  /// The mesh's own axes and those along which its outer points are spread.
  std::vector<Vector3d> likelyAxes() const {
    Eigen::Matrix3d spread = Eigen::Matrix3d::Zero();
    for (const Vector3d& p : outer_.points) {
      spread += (p - outer_.centre) * (p - outer_.centre).transpose();
    }
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> solver(spread);
    std::vector<Vector3d> axes;
    for (int i = 0; i < 3; ++i) {
      for (const double sign : {1.0, -1.0}) {
        axes.emplace_back(sign * solver.eigenvectors().col(2 - i));
        axes.emplace_back(sign * Vector3d::Unit(i));
      }
    }
    return axes;
  }

  /// Floor depth at x: this + x.
  double middleDepth() const { return (cylinder_.shallowMm + cylinder_.deepMm) / 2; }

  /// No two points of the cylinder are farther apart than its rim and its deepest point.
  bool isTooLong() const {
    const double longest = std::hypot(cylinder_.diameterMm, cylinder_.deepMm);
    for (const Vector3d& span : outer_.spans) {
      if (span.norm() > longest + kAxisWithinMm) return true;
    }
    return false;
  }

  /// Along `up`, turned so that `deep` (square to it) is the floor's deep side, the part needs at
  /// least this much depth there, wherever it stands: what is left of the rim, over the floor and
  /// inside the wall there bounds a trapezium, whose sides add up to `deepMm`.
  double leastDepth(const Vector3d& up, const Vector3d& deep) const {
    return farthest(outer_.points, up) + farthest(outer_.points, deep) +
           farthest(outer_.points, -up - deep);
  }

  /// Halves turns about the cell's axis until each is excluded.
  bool isTooDeep(const AxisCell& cell) {
    const Vector3d up = cell.middle();
    const auto across = squareTo(up);
    std::vector<std::pair<double, double>> turns;
    constexpr int kFirst = 8;
    for (int i = 0; i < kFirst; ++i) {
      turns.emplace_back(2 * kPi * (i + 0.5) / kFirst, kPi / kFirst);
    }
    while (!turns.empty()) {
      const auto [turn, half] = turns.back();
      turns.pop_back();
      const Vector3d deep = std::cos(turn) * across[0] + std::sin(turn) * across[1];
      // A turn by `moved` in all moves each of the three supports by no more than this.
      const double moved = cell.radiusRad() + half;
      const double slack = (2 + std::sqrt(2.0)) * moved * outer_.reachMm;
      const double needs = leastDepth(up, deep);
      if (needs - slack > cylinder_.deepMm + kAxisWithinMm) continue;
      if (needs <= cylinder_.deepMm || half < cell.radiusRad() / 4 || half < kFinestRad ||
          ++turnCells_ > kMostTurnCells) {
        return false;
      }
      turns.emplace_back(turn - half / 2, half / 2);
      turns.emplace_back(turn + half / 2, half / 2);
    }
    return true;
  }

  /// How much deeper than it is the cylinder would have to be, for the best of some turns.
  struct Try {
    double missing = std::numeric_limits<double>::infinity();
    Vector3d up = Vector3d::UnitZ(), deep = Vector3d::UnitX();
  };

  Try bestAlong(const Vector3d& up, int turns, double from, double step) const {
    Try best;
    const auto across = squareTo(up);
    const Circle circle = shadowCircle(outer_.points, across);
    best.up = up;
    best.deep = across[0];
    if (circle.radius > radius()) {
      best.missing = 100 + circle.radius - radius();
      return best;
    }
    for (int i = 0; i < turns; ++i) {
      const double turn = from + step * i;
      const Vector3d deep = std::cos(turn) * across[0] + std::sin(turn) * across[1];
      const double missing = missingDepth(outer_.points, up, deep, circle, across);
      if (missing < best.missing) best = {missing, up, deep};
    }
    return best;
  }

  /// Pushed from the middle of the smallest circle to the deep side as far as the wall lets it.
  double pushed(const std::vector<Vector3d>& points, const Vector3d& deep, const Circle& circle,
                const std::array<Vector3d, 2>& across) const {
    const Vector2d way(across[0].dot(deep), across[1].dot(deep));
    double by = 2 * radius();
    for (const Vector3d& p : points) {
      const Vector2d q = Vector2d(across[0].dot(p), across[1].dot(p)) - circle.centre;
      const double along = way.dot(q);
      const double root = along * along + radius() * radius() - q.squaredNorm();
      by = std::min(by, root < 0 ? 0.0 : -along + std::sqrt(root));
    }
    return by;
  }

  double missingDepth(const std::vector<Vector3d>& points, const Vector3d& up, const Vector3d& deep,
                      const Circle& circle, const std::array<Vector3d, 2>& across) const {
    const double middle =
        deep.dot(across[0]) * circle.centre.x() + deep.dot(across[1]) * circle.centre.y();
    const double shift = pushed(points, deep, circle, across) - middle;
    return farthest(points, -up - deep) - shift + farthest(points, up) - middleDepth();
  }

  std::optional<Pose> placedAlong(const Vector3d& up) {
    const Try found = bestAlong(up, 24, 0, kPi / 12);
    if (found.missing < best_.missing) best_ = found;
    return found.missing <= 0 ? placed(found) : std::nullopt;
  }

  /// With all corners; none if one of them sticks out.
  std::optional<Pose> placed(const Try& found) const {
    const auto across = squareTo(found.up);
    const Circle circle = shadowCircle(outer_.points, across);
    const double middle = found.deep.dot(across[0]) * circle.centre.x() +
                          found.deep.dot(across[1]) * circle.centre.y();
    const double shift = pushed(mesh_.vertices, found.deep, circle, across) - middle;
    const Vector3d side = found.up.cross(found.deep);
    Pose X = Pose::Identity();
    X.linear().row(0) = found.deep.transpose();
    X.linear().row(1) = side.transpose();
    X.linear().row(2) = found.up.transpose();
    const double sideways =
        side.dot(across[0]) * circle.centre.x() + side.dot(across[1]) * circle.centre.y();
    X.translation() = Vector3d(shift, -sideways, -farthest(mesh_.vertices, found.up));
    for (const Vector3d& corner : mesh_.vertices) {
      const Vector3d p = X * corner;
      const bool inside = p.head<2>().norm() <= radius() + kAxisWithinMm &&
                          p.z() <= kAxisWithinMm &&
                          p.z() >= -(middleDepth() + p.x()) - kAxisWithinMm;
      if (!inside) return std::nullopt;
    }
    return X;
  }

  /// From the best axis found, smaller and smaller turns of it.
  std::optional<Pose> climbed() {
    for (double step = 0.1; step > 1e-4; step /= 2) {
      bool better = true;
      while (better) {
        better = false;
        const auto across = squareTo(best_.up);
        for (int i = 0; i < 8; ++i) {
          const double turn = kPi / 4 * i;
          const Vector3d up =
              (best_.up + step * (std::cos(turn) * across[0] + std::sin(turn) * across[1]))
                  .normalized();
          const Try found = bestAlong(up, 72, 0, kPi / 36);
          if (found.missing >= best_.missing - 1e-9) continue;
          best_ = found;
          better = true;
        }
        if (best_.missing <= 0) {
          if (const auto X = placed(best_)) return X;
        }
      }
    }
    return std::nullopt;
  }

  const TriangleMesh& mesh_;
  SmallPartsCylinder cylinder_;
  OuterPoints outer_;
  HoleBound hole_;
  Try best_;
  std::size_t turnCells_ = 0;
};

}  // namespace

SmallPartAnswer fitsSmallParts(const TriangleMesh& mesh, const SmallPartsCylinder& cylinder) {
  return SmallPartSearch(mesh, cylinder).run();
}

PassAnswer passesHole(const TriangleMesh& mesh, double diameterMm) {
  if (mesh.vertices.empty()) return PassAnswer::unknown;
  const OuterPoints outer = outerPoints(mesh);
  HoleBound hole(outer, diameterMm / 2);
  std::vector<AxisCell> cells = wholeSphere();
  std::size_t looked = 0;
  bool undecided = false;
  while (!cells.empty()) {
    std::vector<AxisCell> next;
    for (const AxisCell& cell : cells) {
      ++looked;
      if (hole.isTooWide(cell)) continue;
      const auto across = squareTo(cell.middle());
      if (shadowCircle(outer.points, across).radius <= diameterMm / 2 &&
          shadowCircle(mesh.vertices, across).radius <= diameterMm / 2 + kAxisWithinMm) {
        return PassAnswer::yes;
      }
      if (cell.radiusRad() > kFinestRad && looked < kMostCells) {
        for (const AxisCell& quarter : cell.quartered()) next.push_back(quarter);
      } else {
        undecided = true;
      }
    }
    cells = std::move(next);
  }
  return undecided ? PassAnswer::maybe : PassAnswer::no;
}

bool isBallLike(const TriangleMesh& mesh) {
  if (mesh.vertices.empty()) return false;
  const OuterPoints outer = outerPoints(mesh);
  double least = std::numeric_limits<double>::infinity(), most = 0;
  for (const Vector3d& direction : spreadDirections(64)) {
    const double width = farthest(outer.points, direction) + farthest(outer.points, -direction);
    least = std::min(least, width);
    most = std::max(most, width);
  }
  const double ball = kPi / 6 * most * most * most;
  return least >= 0.8 * most && std::abs(massProperties(mesh).volumeMm3) > 0.5 * ball;
}

}  // namespace swingroom
