#include "core/room/space/flat_thinning.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "core/base/transform.h"

namespace swingroom {
namespace {

constexpr int kRounds = 12;
constexpr double kLeastShape = 0.06;  ///< Area by the sum of squared edges; equal sides: 0.144.

using Star = std::vector<std::uint32_t>;

class Thinner {
 public:
  Thinner(LatticeSurface& surface, double withinMm)
      : mesh_(surface.mesh),
        names_(surface.regions),
        spareMm_(surface.spareMm),
        withinMm_(withinMm),
        stars_(mesh_.vertices.size()),
        off_(mesh_.triangles.size(), 0) {
    for (std::uint32_t t = 0; t < mesh_.triangles.size(); ++t) {
      for (const std::uint32_t v : mesh_.triangles[t]) stars_[v].push_back(t);
    }
  }

  void run(const WorkMonitor& monitor) {
    for (int round = 0; round < kRounds && !monitor.cancelled(); ++round) {
      std::size_t taken = 0;
      touched_.assign(mesh_.vertices.size(), false);
      for (std::uint32_t v = 0; v < mesh_.vertices.size(); ++v) {
        if ((v & 0xfff) == 0 && monitor.cancelled()) break;
        if (!stars_[v].empty() && !touched_[v] && takeOut(v)) ++taken;
      }
      if (taken * 50 < mesh_.vertices.size() >> round) break;
    }
    keepLeft();
  }

 private:
  const Vector3d& at(std::uint32_t v) const { return mesh_.vertices[v]; }

  /// The corners round v, in order; empty if its triangles do not lie round it once.
  std::vector<std::uint32_t> ringOf(std::uint32_t v) const {
    const Star& star = stars_[v];
    std::vector<std::uint32_t> ring;
    std::uint32_t next = std::numeric_limits<std::uint32_t>::max();
    for (std::size_t i = 0; i < star.size(); ++i) {
      bool found = false;
      for (const std::uint32_t t : star) {
        const auto& [a, b, c] = mesh_.triangles[t];
        const auto [from, to] = a == v ? std::pair(b, c) : b == v ? std::pair(c, a) : std::pair(a, b);
        if (i > 0 && from != next) continue;
        ring.push_back(from);
        next = to;
        found = true;
        break;
      }
      if (!found) return {};
    }
    return !ring.empty() && next == ring.front() ? ring : std::vector<std::uint32_t>{};
  }

  /// How far apart, across their mean plane, the corners of the star lie; none if it is not flat.
  std::optional<double> thicknessOf(std::uint32_t v, const std::vector<std::uint32_t>& ring, Vector3d& normal) const {
    normal.setZero();
    for (std::size_t i = 0; i < ring.size(); ++i) {
      normal += (at(ring[i]) - at(v)).cross(at(ring[(i + 1) % ring.size()]) - at(v));
    }
    const double length = normal.norm();
    if (!(length > 0)) return std::nullopt;
    normal /= length;
    double low = 0, high = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Vector3d a = at(ring[i]) - at(v), b = at(ring[(i + 1) % ring.size()]) - at(v);
      if (normal.dot(a.cross(b)) <= 0) return std::nullopt;
      low = std::min(low, normal.dot(a));
      high = std::max(high, normal.dot(a));
    }
    return high - low;
  }

  /// The worst shape of the triangles from ring[to] to the rest of the ring; 0 if one is turned round.
  double shapeOf(const std::vector<std::uint32_t>& ring, std::size_t to, const Vector3d& normal) const {
    double worst = 1;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i) {
      const Vector3d& a = at(ring[to]);
      const Vector3d& b = at(ring[(to + i) % ring.size()]);
      const Vector3d& c = at(ring[(to + i + 1) % ring.size()]);
      const double area = 0.5 * normal.dot((b - a).cross(c - a));
      worst = std::min(worst, area / ((b - a).squaredNorm() + (c - b).squaredNorm() + (a - c).squaredNorm()));
    }
    return worst;
  }

  bool areNeighbours(std::uint32_t a, std::uint32_t b) const {
    return std::any_of(stars_[a].begin(), stars_[a].end(), [&](std::uint32_t t) {
      const Triangle& corners = mesh_.triangles[t];
      return std::find(corners.begin(), corners.end(), b) != corners.end();
    });
  }

  /// No edge that the new triangles bring is there already.
  bool staysManifold(const std::vector<std::uint32_t>& ring, std::size_t to) const {
    for (std::size_t i = 2; i + 1 < ring.size(); ++i) {
      if (areNeighbours(ring[to], ring[(to + i) % ring.size()])) return false;
    }
    return true;
  }

  bool takeOut(std::uint32_t v) {
    if (stars_[v].size() < 4 || stars_[v].size() > 24) return false;
    const std::vector<std::uint32_t> ring = ringOf(v);
    Vector3d normal;
    if (ring.size() != stars_[v].size()) return false;
    const auto thickness = thicknessOf(v, ring, normal);
    if (!thickness) return false;
    double offMm = *thickness;
    for (const std::uint32_t t : stars_[v]) offMm = std::max(offMm, off_[t] + *thickness);
    float spareMm = spareMm_[v];
    for (const std::uint32_t r : ring) spareMm = std::min(spareMm, spareMm_[r]);
    if (offMm > withinMm_ + spareMm) return false;
    std::optional<std::size_t> best;
    double bestShape = kLeastShape;
    for (std::size_t to = 0; to < ring.size(); ++to) {
      const double shape = shapeOf(ring, to, normal);
      if (shape <= bestShape || !staysManifold(ring, to)) continue;
      bestShape = shape;
      best = to;
    }
    if (!best) return false;
    replaceStar(v, ring, *best, offMm);
    return true;
  }

  void replaceStar(std::uint32_t v, const std::vector<std::uint32_t>& ring, std::size_t to, double offMm) {
    const Star old = std::move(stars_[v]);
    stars_[v].clear();
    for (const std::uint32_t r : ring) {
      std::erase_if(stars_[r], [&](std::uint32_t t) { return std::find(old.begin(), old.end(), t) != old.end(); });
      touched_[r] = true;
    }
    for (std::size_t i = 1; i + 1 < ring.size(); ++i) {
      const std::uint32_t t = old[i - 1];
      mesh_.triangles[t] = {ring[to], ring[(to + i) % ring.size()], ring[(to + i + 1) % ring.size()]};
      off_[t] = offMm;
      for (const std::uint32_t corner : mesh_.triangles[t]) stars_[corner].push_back(t);
    }
    for (std::size_t i = ring.size() - 2; i < old.size(); ++i) mesh_.triangles[old[i]] = {v, v, v};
  }

  void keepLeft() {
    std::vector<std::uint32_t> places(mesh_.vertices.size());
    TriangleMesh left;
    std::vector<std::uint32_t> names;
    std::vector<float> spareMm;
    for (std::uint32_t v = 0; v < mesh_.vertices.size(); ++v) {
      places[v] = static_cast<std::uint32_t>(left.vertices.size());
      if (stars_[v].empty()) continue;
      left.vertices.push_back(at(v));
      spareMm.push_back(spareMm_[v]);
    }
    for (std::size_t t = 0; t < mesh_.triangles.size(); ++t) {
      const auto& [a, b, c] = mesh_.triangles[t];
      if (a == b) continue;
      left.triangles.push_back({places[a], places[b], places[c]});
      names.push_back(names_[t]);
    }
    mesh_ = std::move(left);
    names_ = std::move(names);
    spareMm_ = std::move(spareMm);
  }

  TriangleMesh& mesh_;
  std::vector<std::uint32_t>& names_;
  std::vector<float>& spareMm_;
  double withinMm_;
  std::vector<Star> stars_;
  std::vector<double> off_;  ///< By triangle: most that it may be off the surface as it was.
  std::vector<bool> touched_;
};

}  // namespace

void thinFlats(LatticeSurface& surface, double withinMm, const WorkMonitor& monitor) {
  Thinner(surface, withinMm).run(monitor);
}

}  // namespace swingroom
