#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/print/walls/wall_surface.h"

namespace swingroom {
namespace {

using Eigen::Vector3d;

constexpr std::uint32_t kWallNone = SurfaceTopology::kNone;
constexpr double kWallGrooveCos = 0.866;  ///< Of 30 degrees.
constexpr double kWallSharpCos = -0.25;   ///< Of 105 degrees, that is an opening of 75.

}  // namespace

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
      if (cosBend > kWallGrooveCos || nt.isZero() || nu.isZero()) continue;
      const std::uint32_t a = faces_.triangles[t][side], b = faces_.triangles[t][(side + 1) % 3];
      const Vector3d along = faces_.vertices[b] - faces_.vertices[a];
      // Both normals turn about the edge: to the left over a ridge, to the right over a groove.
      const bool isGroove = along.dot(nt.cross(nu)) < 0;
      if (!isGroove) {
        if (cosBend <= kWallSharpCos)
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
        if (cosBend > kWallSharpCos || cosBend >= cosMost) continue;
        const Vector3d& place = faces_.vertices[v];
        if (isUnder(at[i], at[j], place) && isUnder(at[j], at[i], place)) cosMost = cosBend;
      }
    }
    if (cosMost < 0)
      blades_.push_back({v, v, std::numbers::pi - std::acos(std::max(-1.0, cosMost))});
  }
}

}  // namespace swingroom
