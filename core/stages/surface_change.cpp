#include "core/stages/surface_change.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <queue>

#include "core/base/parallel.h"
#include "core/tree/ray_query.h"

namespace swingroom {
namespace {

using Eigen::Vector3d;

constexpr double kSameMm = 1e-7;
constexpr double kOppositeCos = -0.5;
constexpr double kMostPieces = 150'000;
constexpr std::size_t kMostLooks = 40'000;  ///< For one largest change.

/// A piece and what it takes to look at it more closely.
struct Looked {
  ChangePiece piece;
  Vector3d nearest;
  double radiusMm = 0;  ///< From the middle to the farthest corner.
  std::optional<std::uint32_t> near;

  Vector3d middle() const { return (piece.corners[0] + piece.corners[1] + piece.corners[2]) / 3; }
};

double distanceToTriangle(const Vector3d& p, const TriangleCorners& t) {
  return (closestPointOnTriangle(p, t) - p).norm();
}

double areaOfCorners(const TriangleCorners& t) {
  return (t[1] - t[0]).cross(t[2] - t[0]).norm() / 2;
}

class ChangeMeter {
 public:
  ChangeMeter(const StageSurface& other, const StageSurface& on, const ChangeSettings& settings)
      : other_(other), on_(on), settings_(settings) {
    for (const std::uint32_t t : on.shown()) areaMm2_ += areaOfCorners(cornersOf(t));
    // A piece of this size from middle to corner has at most 1.3 of its square as its area.
    coarseMm_ = std::max(settings.coarseMm, std::sqrt(2.5 * areaMm2_ / kMostPieces));
    fineMm_ = std::max(settings.fineMm, std::sqrt(areaMm2_ / kMostPieces));
  }

  SurfaceChange run() const;

 private:
  TriangleCorners cornersOf(std::uint32_t t) const {
    const TriangleMesh& mesh = on_.mesh();
    return {mesh.corner(t, 0), mesh.corner(t, 1), mesh.corner(t, 2)};
  }
  Looked look(const TriangleCorners& corners, const Vector3d& normal, std::uint32_t triangle,
              std::optional<std::uint32_t> near) const;
  std::array<Looked, 2> halved(const Looked& whole) const;
  bool isFine(const Looked& looked) const;
  void addPieces(std::uint32_t triangle, std::vector<Looked>& pieces) const;
  std::optional<LargestChange> largest(const std::vector<Looked>& pieces, double sign) const;

  const StageSurface& other_;
  const StageSurface& on_;
  const ChangeSettings& settings_;
  double areaMm2_ = 0, coarseMm_ = 1, fineMm_ = 0.25;
};

Looked ChangeMeter::look(const TriangleCorners& corners, const Vector3d& normal,
                         std::uint32_t triangle, std::optional<std::uint32_t> near) const {
  Looked looked;
  looked.piece.corners = corners;
  looked.piece.normal = normal;
  looked.piece.triangle = triangle;
  looked.near = near;
  const Vector3d middle = looked.middle();
  const PlaceChange change = changeAt(other_, on_, middle, normal, looked.near);
  looked.piece.mm = change.mm;
  looked.nearest = change.nearest;
  double byCorners = 0;
  for (const Vector3d& corner : corners) {
    looked.radiusMm = std::max(looked.radiusMm, (corner - middle).norm());
    // The distance from one triangle is convex: over a flat piece its corners bound it.
    byCorners = std::max(byCorners, distanceToTriangle(corner, other_.tree().triangles()[*looked.near]));
  }
  const double mm = std::abs(change.mm);
  looked.piece.upperMm = std::max(mm, std::min(byCorners, mm + looked.radiusMm));
  return looked;
}

std::array<Looked, 2> ChangeMeter::halved(const Looked& whole) const {
  const TriangleCorners& c = whole.piece.corners;
  std::size_t longest = 0;
  double most = -1;
  for (std::size_t i = 0; i < 3; ++i) {
    const double squared = (c[(i + 1) % 3] - c[i]).squaredNorm();
    if (squared > most) most = squared, longest = i;
  }
  const Vector3d& from = c[longest];
  const Vector3d& to = c[(longest + 1) % 3];
  const Vector3d& apex = c[(longest + 2) % 3];
  const Vector3d cut = (from + to) / 2;
  return {look({from, cut, apex}, whole.piece.normal, whole.piece.triangle, whole.near),
          look({cut, to, apex}, whole.piece.normal, whole.piece.triangle, whole.near)};
}

bool ChangeMeter::isFine(const Looked& looked) const {
  if (looked.radiusMm <= fineMm_) return true;
  return looked.radiusMm <= coarseMm_ &&
         looked.piece.upperMm - std::abs(looked.piece.mm) <= settings_.spreadMm;
}

void ChangeMeter::addPieces(std::uint32_t triangle, std::vector<Looked>& pieces) const {
  const TriangleCorners corners = cornersOf(triangle);
  const Vector3d across = (corners[1] - corners[0]).cross(corners[2] - corners[0]);
  if (!(across.norm() > 0)) return;
  const auto near = pieces.empty() ? std::nullopt : pieces.back().near;
  std::vector<Looked> stack{look(corners, across.normalized(), triangle, near)};
  while (!stack.empty()) {
    const Looked looked = stack.back();
    stack.pop_back();
    if (isFine(looked)) {
      pieces.push_back(looked);
      continue;
    }
    const auto halves = halved(looked);
    stack.push_back(halves[1]);
    stack.push_back(halves[0]);
  }
}

/// Best first: what may hold the largest is halved until it cannot be larger than what was found.
std::optional<LargestChange> ChangeMeter::largest(const std::vector<Looked>& pieces,
                                                  double sign) const {
  const auto mayHold = [&](const Looked& p) {
    // A ball that does not reach the other surface lies on one side of it.
    return sign * p.piece.mm >= 0 || std::abs(p.piece.mm) <= p.radiusMm;
  };
  std::optional<LargestChange> best;
  const auto note = [&](const Looked& p) {
    const double mm = sign * p.piece.mm;
    if (mm > kSameMm && (!best || mm > std::abs(best->place.mm))) {
      best = LargestChange{{p.piece.mm, p.middle(), p.nearest}, 0};
    }
  };
  for (const Looked& piece : pieces) note(piece);
  const auto enough = [&] { return (best ? std::abs(best->place.mm) : 0) + settings_.accuracyMm; };
  const auto less = [](const Looked& a, const Looked& b) { return a.piece.upperMm < b.piece.upperMm; };
  std::vector<Looked> candidates;
  for (const Looked& piece : pieces) {
    if (mayHold(piece) && piece.piece.upperMm > enough()) candidates.push_back(piece);
  }
  std::priority_queue<Looked, std::vector<Looked>, decltype(less)> open(less, std::move(candidates));
  std::size_t looks = 0;
  while (!open.empty() && open.top().piece.upperMm > enough() && ++looks < kMostLooks) {
    const Looked top = open.top();
    open.pop();
    for (const Looked& half : halved(top)) {
      note(half);
      if (mayHold(half) && half.piece.upperMm > enough()) open.push(half);
    }
  }
  if (!best) return std::nullopt;
  best->upperMm = enough();
  if (!open.empty()) best->upperMm = std::max(best->upperMm, open.top().piece.upperMm);
  return best;
}

SurfaceChange ChangeMeter::run() const {
  const std::vector<std::uint32_t>& shown = on_.shown();
  constexpr std::size_t kChunk = 256;
  std::vector<std::vector<Looked>> chunks((shown.size() + kChunk - 1) / kChunk);
  parallelFor(chunks.size(), settings_.threads, [&](std::size_t c) {
    if (isCancelled(settings_.monitor)) return;
    const std::size_t end = std::min(shown.size(), (c + 1) * kChunk);
    for (std::size_t i = c * kChunk; i < end; ++i) addPieces(shown[i], chunks[c]);
  });
  SurfaceChange change;
  if (isCancelled(settings_.monitor)) return change;
  std::vector<Looked> all;
  for (std::vector<Looked>& chunk : chunks) {
    all.insert(all.end(), chunk.begin(), chunk.end());
    chunk.clear();
  }
  std::array<std::optional<LargestChange>, 2> largest;
  parallelFor(2, settings_.threads, [&](std::size_t i) {
    largest[i] = this->largest(all, i == 0 ? 1.0 : -1.0);
  });
  change.outward = largest[0];
  change.inward = largest[1];
  change.areaMm2 = areaMm2_;
  change.pieces.reserve(all.size());
  for (const Looked& looked : all) {
    if (std::abs(looked.piece.mm) > settings_.changedMm) {
      change.changedMm2 += areaOfCorners(looked.piece.corners);
    }
    change.pieces.push_back(looked.piece);
  }
  return change;
}

/// In the other solid, if it is one; else behind its nearest triangle.
bool isInsideOf(const StageSurface& other, const Vector3d& p, const SurfacePoint& near) {
  const double cosine = other.normal(near.triangle).dot(p - near.point) / near.distanceMm;
  // Square to a triangle's inside: that triangle tells. At edges and corners it may not.
  const bool clear = std::abs(cosine) > 0.9999;
  if (!other.hasInside() || (clear && other.isPlain())) return cosine < 0;
  return other.contains(p);
}

}  // namespace

PlaceChange changeAt(const StageSurface& other, const StageSurface& on, const Vector3d& p,
                     const Vector3d& normal, std::optional<std::uint32_t>& nearTriangle) {
  PointHints hints;
  hints.triangle = nearTriangle;
  SurfacePoint near = *closestPoint(other.tree(), p, hints);
  nearTriangle = near.triangle;
  if (near.distanceMm < kSameMm) return {0, p, near.point};
  const bool inside = isInsideOf(other, p, near);
  if (other.normal(near.triangle).dot(normal) < kOppositeCos) {
    // The far side of a thin wall, or of a thin slot that was filled from this side.
    double withinMm = std::numeric_limits<double>::infinity();
    if (!inside) {
      constexpr double kOffMm = 0.001;
      const Vector3d from = p - kOffMm * normal;
      const auto through = firstHit(on.tree(), from, -normal);
      const auto back = firstHit(other.tree(), from, -normal,
                                 through ? through->distanceMm : 20 * near.distanceMm);
      if (!back || other.normal(back->triangle).dot(normal) < 0.3) return {near.distanceMm, p, near.point};
      withinMm = back->distanceMm + 2 * kOffMm;
    }
    if (const auto facing = other.nearestFacing(p, normal, kOppositeCos, withinMm)) {
      near = *facing;
      nearTriangle = near.triangle;
    }
  }
  return {inside ? -near.distanceMm : near.distanceMm, p, near.point};
}

SurfaceChange changeOf(const StageSurface& other, const StageSurface& on,
                       const ChangeSettings& settings) {
  if (other.tree().empty() || on.tree().empty()) return {};
  return ChangeMeter(other, on, settings).run();
}

}  // namespace swingroom
