#include "core/print/walls/wall_surface.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/base/parallel.h"
#include "core/mesh/weld.h"
#include "core/tree/point_query.h"

namespace swingroom {
namespace {

using Eigen::AlignedBox3d;
using Eigen::Vector3d;

constexpr std::uint32_t kWallNone = SurfaceTopology::kNone;
constexpr double kGrooveCos = 0.866;  ///< Of 30 degrees.
constexpr double kSharpCos = -0.25;   ///< Of 105 degrees, that is an opening of 75.
constexpr double kSmoothCos = 0.819;  ///< Of 35 degrees.
constexpr double kHiddenOffMm = 0.002;
/// Pieces that other shells hide in part are split to this.
constexpr double kHiddenPieceMm = 0.1;

/// Splits at the middles of longest edges. An edge is split the same way from both its sides, so
/// pieces of neighbours meet edge to edge.
class WallSplitter {
 public:
  WallSplitter(TriangleMesh& pieces, std::vector<std::uint32_t>& triangleOf)
      : faces_(pieces), triangleOf_(triangleOf) {}

  void add(const TriangleCorners& t, std::uint32_t triangle, double longestMm) {
    std::size_t longest = 0;
    double most = 0;
    for (std::size_t e = 0; e < 3; ++e) {
      const double squared = (t[(e + 1) % 3] - t[e]).squaredNorm();
      if (squared > most) {
        most = squared;
        longest = e;
      }
    }
    if (most <= longestMm * longestMm) return keep(t, triangle);
    const Vector3d &p = t[longest], &q = t[(longest + 1) % 3], &r = t[(longest + 2) % 3];
    const Vector3d middle = 0.5 * (p + q);
    add({p, middle, r}, triangle, longestMm);
    add({middle, q, r}, triangle, longestMm);
  }

 private:
  void keep(const TriangleCorners& t, std::uint32_t triangle) {
    const auto first = static_cast<std::uint32_t>(faces_.vertices.size());
    faces_.vertices.insert(faces_.vertices.end(), t.begin(), t.end());
    faces_.triangles.push_back({first, first + 1, first + 2});
    triangleOf_.push_back(triangle);
  }

  TriangleMesh& faces_;
  std::vector<std::uint32_t>& triangleOf_;
};

TriangleCorners wallCorners(const TriangleMesh& mesh, std::size_t t) {
  return {mesh.corner(t, 0), mesh.corner(t, 1), mesh.corner(t, 2)};
}

AlignedBox3d wallBoxOf(const TriangleCorners& t) {
  AlignedBox3d box;
  for (const Vector3d& corner : t) box.extend(corner);
  return box;
}

enum class Hidden { not_, partly, wholly };

Hidden hiddenIn(const BoundingTree& solid, const TriangleCorners& t) {
  const Vector3d across = (t[1] - t[0]).cross(t[2] - t[0]);
  const double twice = across.norm();
  if (!(twice > 0)) return Hidden::not_;
  const Vector3d off = kHiddenOffMm / twice * across, middle = (t[0] + t[1] + t[2]) / 3;
  int inside = windingNumber(solid, middle + off) > 0;
  for (const Vector3d& corner : t)
    inside += windingNumber(solid, corner + 0.02 * (middle - corner) + off) > 0;
  return inside == 0 ? Hidden::not_ : inside == 4 ? Hidden::wholly : Hidden::partly;
}

}  // namespace

WallSurface::WallSurface(const TriangleMesh& mesh, const MeshHealth& health, unsigned threads) {
  takeAll(mesh);
  if (health.shells.size() > 1) dropHidden(mesh, health, threads);
  faces_ = welded(faces_);
  topology_ = std::make_unique<const SurfaceTopology>(faces_);
  tree_ = std::make_unique<const BoundingTree>(faces_);
  findEdges();
  findTips();
  findSmoothNormals();
  TriangleMesh lines;
  lines.vertices = faces_.vertices;
  for (const Blade& blade : blades_) lines.triangles.push_back({blade.from, blade.to, blade.to});
  bladeTree_ = std::make_unique<const BoundingTree>(lines);
}

void WallSurface::takeAll(const TriangleMesh& mesh) {
  faces_.vertices = mesh.vertices;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const Triangle& corners = mesh.triangles[t];
    if (corners[0] == corners[1] || corners[1] == corners[2] || corners[2] == corners[0]) continue;
    faces_.triangles.push_back(corners);
    triangleOf_.push_back(static_cast<std::uint32_t>(t));
  }
}

void WallSurface::dropHidden(const TriangleMesh& mesh, const MeshHealth& health, unsigned threads) {
  std::vector<AlignedBox3d> boxes(health.shells.size());
  std::vector<std::uint32_t> shellOf(mesh.triangles.size(), kWallNone);
  for (std::size_t s = 0; s < boxes.size(); ++s) {
    for (const std::uint32_t t : health.shells[s].triangles) {
      boxes[s].extend(wallBoxOf(wallCorners(mesh, t)));
      shellOf[t] = static_cast<std::uint32_t>(s);
    }
  }
  std::vector<AlignedBox3d> reach;  // Of shells into which some other reaches.
  const BoundingTree solid(mesh);
  const std::size_t count = faces_.triangles.size();
  std::vector<TriangleMesh> kept((count + 255) / 256);
  std::vector<std::vector<std::uint32_t>> keptOf(kept.size());
  parallelFor(kept.size(), threads, [&](std::size_t chunk) {
    WallSplitter splitter(kept[chunk], keptOf[chunk]);
    const auto look = [&](const auto& again, const TriangleCorners& t, std::uint32_t triangle,
                          double edgeMm) -> void {
      const AlignedBox3d box = wallBoxOf(t);
      bool may = false;
      for (std::size_t s = 0; s < boxes.size() && !may; ++s)
        may = s != shellOf[triangle] && boxes[s].intersects(box);
      const Hidden hidden = may ? hiddenIn(solid, t) : Hidden::not_;
      if (hidden == Hidden::wholly) return;
      if (hidden == Hidden::not_ || edgeMm < kHiddenPieceMm)
        return splitter.add(t, triangle, std::numeric_limits<double>::infinity());
      TriangleMesh parts;
      std::vector<std::uint32_t> of;
      WallSplitter(parts, of).add(t, triangle, edgeMm / 2);
      for (std::size_t i = 0; i < parts.triangles.size(); ++i)
        again(again, wallCorners(parts, i), triangle, edgeMm / 2);
    };
    for (std::size_t i = 256 * chunk; i < std::min(count, 256 * (chunk + 1)); ++i) {
      const TriangleCorners t = wallCorners(faces_, i);
      const double edgeMm =
          std::max({(t[1] - t[0]).norm(), (t[2] - t[1]).norm(), (t[0] - t[2]).norm()});
      look(look, t, triangleOf_[i], edgeMm);
    }
  });
  faces_ = {};
  triangleOf_.clear();
  for (std::size_t c = 0; c < kept.size(); ++c) {
    const auto first = static_cast<std::uint32_t>(faces_.vertices.size());
    faces_.vertices.insert(faces_.vertices.end(), kept[c].vertices.begin(), kept[c].vertices.end());
    for (const Triangle& t : kept[c].triangles)
      faces_.triangles.push_back({first + t[0], first + t[1], first + t[2]});
    triangleOf_.insert(triangleOf_.end(), keptOf[c].begin(), keptOf[c].end());
  }
}

void WallSurface::findEdges() {
  const std::size_t count = faces_.triangles.size();
  grooveAt_.assign(count, {kWallNone, kWallNone, kWallNone});
  hasGroove_.assign(count, 0);
  for (std::uint32_t t = 0; t < count; ++t) {
    for (std::uint32_t side = 0; side < 3; ++side) {
      const std::uint32_t u = topology_->neighbours[t][side];
      if (u == kWallNone || u < t || triangleOf_[u] == triangleOf_[t]) continue;
      const Vector3d &nt = normal(t), &nu = normal(u);
      const double cosBend = nt.dot(nu);
      if (cosBend > kGrooveCos || nt.isZero() || nu.isZero()) continue;
      const std::uint32_t a = faces_.triangles[t][side], b = faces_.triangles[t][(side + 1) % 3];
      const Vector3d along = faces_.vertices[b] - faces_.vertices[a];
      // Both normals turn about the edge: to the left over a ridge, to the right over a groove.
      const bool isGroove = along.dot(nt.cross(nu)) < 0;
      if (!isGroove) {
        if (cosBend <= kSharpCos)
          blades_.push_back({a, b, std::numbers::pi - std::acos(std::max(-1.0, cosBend))});
        continue;
      }
      const auto index = static_cast<std::uint32_t>(grooves_.size());
      grooves_.push_back({a, b, {nt, nu}, {t, u}});
      grooveAt_[t][side] = index;
      hasGroove_[t] = hasGroove_[u] = 1;
      for (std::uint32_t other = 0; other < 3; ++other) {
        if (topology_->neighbours[u][other] == t) grooveAt_[u][other] = index;
      }
    }
  }
}

void WallSurface::findTips() {
  // Two opposed faces that share a vertex and lie on each other's inner side.
  auto &first = firstAt_, &at = facesAt_;
  first.assign(faces_.vertices.size() + 1, 0);
  for (const Triangle& t : faces_.triangles)
    for (const std::uint32_t v : t) ++first[v + 1];
  for (std::size_t v = 0; v + 1 < first.size(); ++v) first[v + 1] += first[v];
  at.resize(first.back());
  std::vector<std::uint32_t> next(first.begin(), first.end() - 1);
  for (std::uint32_t t = 0; t < faces_.triangles.size(); ++t)
    for (const std::uint32_t v : faces_.triangles[t]) at[next[v]++] = t;
  std::vector<char> onBlade(faces_.vertices.size(), 0);
  for (const Blade& blade : blades_) onBlade[blade.from] = onBlade[blade.to] = 1;
  const auto isUnder = [&](std::uint32_t t, std::uint32_t u, const Vector3d& v) {
    double deepest = 0, size = 0;
    for (int i = 0; i < 3; ++i) {
      const Vector3d off = faces_.corner(u, i) - v;
      deepest = std::min(deepest, off.dot(normal(t)));
      size = std::max(size, off.norm());
    }
    return deepest < -1e-6 * size;
  };
  for (std::uint32_t v = 0; v < faces_.vertices.size(); ++v) {
    if (onBlade[v]) continue;
    double cosMost = 0;
    for (std::uint32_t i = first[v]; i < first[v + 1]; ++i) {
      for (std::uint32_t j = i + 1; j < first[v + 1]; ++j) {
        const double cosBend = normal(at[i]).dot(normal(at[j]));
        if (cosBend > kSharpCos || cosBend >= cosMost) continue;
        const Vector3d& place = faces_.vertices[v];
        if (isUnder(at[i], at[j], place) && isUnder(at[j], at[i], place)) cosMost = cosBend;
      }
    }
    if (cosMost < 0)
      blades_.push_back({v, v, std::numbers::pi - std::acos(std::max(-1.0, cosMost))});
  }
}

void WallSurface::findSmoothNormals() {
  cornerNormals_.resize(faces_.triangles.size());
  for (std::uint32_t t = 0; t < faces_.triangles.size(); ++t) {
    for (std::size_t i = 0; i < 3; ++i) {
      const std::uint32_t v = faces_.triangles[t][i];
      Vector3d sum = Vector3d::Zero();
      for (std::uint32_t k = firstAt_[v]; k < firstAt_[v + 1]; ++k) {
        const std::uint32_t u = facesAt_[k];
        if (normal(u).dot(normal(t)) < kSmoothCos) continue;
        const Triangle& corners = faces_.triangles[u];
        const std::size_t c = corners[0] == v ? 0 : corners[1] == v ? 1 : 2;
        const Vector3d a = faces_.vertices[corners[(c + 1) % 3]] - faces_.vertices[v];
        const Vector3d b = faces_.vertices[corners[(c + 2) % 3]] - faces_.vertices[v];
        sum += std::atan2(a.cross(b).norm(), a.dot(b)) * normal(u);
      }
      cornerNormals_[t][i] = sum.normalized().cast<float>();
    }
  }
}

Vector3d WallSurface::smoothNormal(std::uint32_t face, const Vector3d& p) const {
  const TriangleCorners t = corners(face);
  const Vector3d& n = normal(face);
  Vector3d sum = Vector3d::Zero();
  for (std::size_t i = 0; i < 3; ++i) {
    const Vector3d &a = t[(i + 1) % 3], &b = t[(i + 2) % 3];
    const double share = std::max(0.0, (a - p).cross(b - p).dot(n));
    sum += share * cornerNormals_[face][i].cast<double>();
  }
  const double norm = sum.norm();
  if (!(norm > 0)) return n;
  const Vector3d smooth = sum / norm;
  return smooth.dot(n) > 1 - 1e-9 ? n : smooth;
}

std::optional<WallSurface::NearBlade> WallSurface::bladeNear(const Vector3d& p,
                                                             double withinMm) const {
  if (bladeTree_->empty()) return std::nullopt;
  PointHints hints;
  hints.withinMm = withinMm;
  const auto near = closestPoint(*bladeTree_, p, hints);
  if (!near) return std::nullopt;
  return NearBlade{near->distanceMm, blades_[bladeTree_->order()[near->triangle]].openingRad};
}

std::optional<WallSurface::Exit> WallSurface::exitAlong(const Vector3d& from,
                                                        const Vector3d& direction,
                                                        double withinMm) const {
  constexpr double kStepMm = 1e-7;
  double goneMm = 0;
  // What it enters on its way is another shell's remainder, hidden in this one.
  for (int i = 0; i < 64 && goneMm < withinMm; ++i) {
    const auto hit = firstHit(*tree_, from + goneMm * direction, direction, withinMm - goneMm);
    if (!hit) return std::nullopt;
    const std::uint32_t face = tree_->order()[hit->triangle];
    if (normal(face).dot(direction) > 0) return Exit{goneMm + hit->distanceMm, face};
    goneMm += hit->distanceMm + kStepMm;
  }
  return std::nullopt;
}

}  // namespace swingroom
