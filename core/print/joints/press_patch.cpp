#include "core/print/joints/press_patch.h"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>

#include "core/tree/point_query.h"
#include "core/tree/ray_query.h"

namespace swingroom {
namespace {

constexpr double kPatchPieceMm = 0.2;
constexpr double kPatchInsideMm = 1.0;  // Pieces wholly inside are still cut down to this.
constexpr double kPatchOpposed = -0.5;  // Of a face and the wall that it presses on.
constexpr double kPatchSameWay = 0.7;
constexpr std::size_t kPatchMost = 400'000;

struct PatchPiece {
  TriangleCorners corners;
  Vector3d middle, normal;
  double areaMm2 = 0;
};

class PatchGatherer {
 public:
  PatchGatherer(const Solid& solid, const Pose& X_BA) : solid_(solid), X_BA_(X_BA) {
    for (const TriangleCorners& t : solid.boundary().triangles()) {
      for (const Vector3d& p : t) box_.extend(p);
    }
  }

  void add(const TriangleCorners& t) {
    Eigen::AlignedBox3d box;
    for (const Vector3d& p : t) box.extend(X_BA_ * p);
    if (!box.intersects(box_)) return;
    const Vector3d across = (t[1] - t[0]).cross(t[2] - t[0]);
    if (across.norm() > 0) look(t, across.normalized());
  }

  std::vector<PatchPiece> pieces;

 private:
  void look(const TriangleCorners& t, const Vector3d& normal) {
    if (++looked_ > kPatchMost) return;
    const Vector3d c = (t[0] + t[1] + t[2]) / 3;
    const double r = std::max({(t[0] - c).norm(), (t[1] - c).norm(), (t[2] - c).norm()});
    const Vector3d p = X_BA_ * c;
    if (box_.exteriorDistance(p) > r) return;
    PointHints hints;
    hints.withinMm = std::max(r, kPatchInsideMm);
    const auto wall = closestPoint(solid_.boundary(), p, hints);
    const bool mayCross = wall && wall->distanceMm <= r;
    if (!mayCross && !solid_.contains(p)) return;
    const double longest =
        std::max({(t[1] - t[0]).norm(), (t[2] - t[1]).norm(), (t[0] - t[2]).norm()});
    if (longest > (mayCross ? kPatchPieceMm : kPatchInsideMm)) return halve(t, normal, longest);
    if (mayCross && !solid_.contains(p)) return;
    if (!pressesOn(p, X_BA_.linear() * normal)) return;
    pieces.push_back({t, c, normal, (t[1] - t[0]).cross(t[2] - t[0]).norm() / 2});
  }

  /// Back along its normal the piece comes out of the other part through a wall that looks at it.
  bool pressesOn(const Vector3d& p, const Vector3d& normal) const {
    const auto wall = firstHit(solid_.boundary(), p, -normal, kPatchInsideMm);
    if (!wall) return false;
    const TriangleCorners& w = solid_.boundary().triangles()[wall->triangle];
    return (w[1] - w[0]).cross(w[2] - w[0]).normalized().dot(normal) < kPatchOpposed;
  }

  void halve(const TriangleCorners& t, const Vector3d& normal, double longest) {
    for (std::size_t i = 0; i < 3; ++i) {
      const Vector3d &a = t[i], &b = t[(i + 1) % 3], &c = t[(i + 2) % 3];
      if ((b - a).norm() < longest) continue;
      const Vector3d middle = (a + b) / 2;
      look({a, middle, c}, normal);
      look({middle, b, c}, normal);
      return;
    }
  }

  const Solid& solid_;
  Pose X_BA_;
  Eigen::AlignedBox3d box_;
  std::size_t looked_ = 0;
};

PressPatch patchOf(const std::vector<PatchPiece>& pieces) {
  PressPatch patch;
  patch.normal.setZero();
  for (const PatchPiece& piece : pieces) {
    patch.areaMm2 += piece.areaMm2;
    patch.middle += piece.areaMm2 * piece.middle;
    patch.normal += piece.areaMm2 * piece.normal;
  }
  patch.middle /= patch.areaMm2;
  patch.normal.normalize();
  Eigen::Matrix3d spread = Eigen::Matrix3d::Zero();
  for (const PatchPiece& piece : pieces) {
    const Vector3d w = piece.middle - patch.middle;
    spread += piece.areaMm2 * w * w.transpose();
  }
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> solver(spread);
  for (const int i : {2, 1}) {
    double low = 0, high = 0;
    for (const PatchPiece& piece : pieces) {
      for (const Vector3d& corner : piece.corners) {
        const double at = (corner - patch.middle).dot(solver.eigenvectors().col(i));
        low = std::min(low, at);
        high = std::max(high, at);
      }
    }
    (i == 2 ? patch.lengthMm : patch.widthMm) = high - low;
  }
  return patch;
}

}  // namespace

std::vector<PressPatch> pressPatches(const BoundingTree& surface, const Solid& solid,
                                     const Pose& X_BA) {
  if (!solid.hasInside()) return {};
  PatchGatherer gatherer(solid, X_BA);
  for (const TriangleCorners& t : surface.triangles()) gatherer.add(t);
  std::vector<std::vector<PatchPiece>> byWay;
  for (const PatchPiece& piece : gatherer.pieces) {
    const auto same = std::find_if(byWay.begin(), byWay.end(), [&](const auto& pieces) {
      return pieces.front().normal.dot(piece.normal) > kPatchSameWay;
    });
    if (same == byWay.end())
      byWay.push_back({piece});
    else
      same->push_back(piece);
  }
  std::vector<PressPatch> patches;
  for (const auto& pieces : byWay) patches.push_back(patchOf(pieces));
  std::stable_sort(patches.begin(), patches.end(),
                   [](const PressPatch& a, const PressPatch& b) { return a.areaMm2 > b.areaMm2; });
  return patches;
}

}  // namespace swingroom
