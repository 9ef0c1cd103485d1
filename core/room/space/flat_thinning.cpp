#include "core/room/space/flat_thinning.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "core/base/transform.h"

namespace swingroom {
namespace {

constexpr int kRounds = 8;
/// Area by the sum of squared edges; equal sides: 0.144. Well shaped ones first: they leave more to take.
constexpr double kLeastShapes[] = {0.06, 0.035, 0.02};

using Star = std::vector<std::uint32_t>;

/// How far a surface may be off another.
struct Off {
  double outMm = 0, inMm = 0;
  Off mostWith(const Off& other) const { return {std::max(outMm, other.outMm), std::max(inMm, other.inMm)}; }
  Off plus(const Off& more) const { return {outMm + more.outMm, inMm + more.inMm}; }
};

class Thinner {
 public:
  Thinner(LatticeSurface& surface, const ThinningBounds& bounds)
      : mesh_(surface.mesh),
        names_(surface.regions),
        spareMm_(surface.spareMm),
        bounds_(bounds),
        stars_(mesh_.vertices.size()),
        off_(mesh_.triangles.size()) {
    for (std::uint32_t t = 0; t < mesh_.triangles.size(); ++t) {
      for (const std::uint32_t v : mesh_.triangles[t]) stars_[v].push_back(t);
    }
  }

  void run(const WorkMonitor& monitor) {
    for (const double leastShape : kLeastShapes) {
      leastShape_ = leastShape;
      runRounds(monitor);
    }
    keepLeft();
  }

 private:
  void runRounds(const WorkMonitor& monitor) {
    for (int round = 0; round < kRounds && !monitor.cancelled(); ++round) {
      std::size_t taken = 0;
      touched_.assign(mesh_.vertices.size(), false);
      for (std::uint32_t v = 0; v < mesh_.vertices.size(); ++v) {
        if ((v & 0xfff) == 0 && monitor.cancelled()) break;
        if (!stars_[v].empty() && !touched_[v] && takeOut(v)) ++taken;
      }
      if (taken * 100 < mesh_.vertices.size()) break;
    }
  }

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

  /// The ring as it is seen along the star's mean normal from outside, with v at the origin: x, y, and how high.
  /// Empty if the star's triangles lie over each other there.
  std::vector<Vector3d> seen(std::uint32_t v, const std::vector<std::uint32_t>& ring) const {
    Vector3d normal = Vector3d::Zero();
    for (std::size_t i = 0; i < ring.size(); ++i) {
      normal += (at(ring[i]) - at(v)).cross(at(ring[(i + 1) % ring.size()]) - at(v));
    }
    const double length = normal.norm();
    if (!(length > 0)) return {};
    normal /= length;
    const Vector3d x = normal.unitOrthogonal(), y = normal.cross(x);
    std::vector<Vector3d> places;
    for (const std::uint32_t r : ring) {
      const Vector3d off = at(r) - at(v);
      places.emplace_back(x.dot(off), y.dot(off), normal.dot(off));
    }
    for (std::size_t i = 0; i < places.size(); ++i) {
      if (turn(places[i], places[(i + 1) % places.size()]) <= 0) return {};
    }
    return places;
  }
  static double turn(const Vector3d& a, const Vector3d& b) { return a.x() * b.y() - a.y() * b.x(); }

  /// How far a fan from ring[to] lies over the star and under it, along the normal: the most of it is where v was or
  /// where an edge of the one crosses an edge of the other.
  static Off changeOf(const std::vector<Vector3d>& ring, std::size_t to) {
    Off most;
    const auto add = [&](double higher) {
      most.outMm = std::max(most.outMm, higher);
      most.inMm = std::max(most.inMm, -higher);
    };
    const std::size_t n = ring.size();
    const Vector3d& a = ring[to];
    for (std::size_t i = 1; i + 1 < n; ++i) {
      const Vector3d &b = ring[(to + i) % n], &c = ring[(to + i + 1) % n];
      const double ab = turn(a, b), bc = turn(b, c), ca = turn(c, a), all = ab + bc + ca;
      if (ab >= 0 && bc >= 0 && ca >= 0 && all > 0) add((bc * a.z() + ca * b.z() + ab * c.z()) / all);
    }
    for (std::size_t j = 2; j + 1 < n; ++j) {
      const Vector3d& b = ring[(to + j) % n];
      for (std::size_t k = 1; k < n; ++k) {
        if (k == j) continue;
        const Vector3d& spoke = ring[(to + k) % n];
        const double atA = turn(spoke, a), atB = turn(spoke, b);
        if ((atA > 0) == (atB > 0)) continue;
        const double share = atA / (atA - atB);
        const Vector3d p = a + share * (b - a);
        const double along = p.head<2>().dot(spoke.head<2>()) / spoke.head<2>().squaredNorm();
        if (along > 0 && along < 1) add(p.z() - along * spoke.z());
      }
    }
    return most;
  }

  /// The worst shape of the triangles from ring[to] to the rest of the ring; 0 if one is turned round.
  static double shapeOf(const std::vector<Vector3d>& ring, std::size_t to) {
    double worst = 1;
    const std::size_t n = ring.size();
    for (std::size_t i = 1; i + 1 < n; ++i) {
      const Vector3d &a = ring[to], &b = ring[(to + i) % n], &c = ring[(to + i + 1) % n];
      const double area = 0.5 * turn(b - a, c - a);
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
    if (ring.size() != stars_[v].size()) return false;
    const std::vector<Vector3d> places = seen(v, ring);
    if (places.empty()) return false;
    Off before;
    for (const std::uint32_t t : stars_[v]) before = before.mostWith(off_[t]);
    float spareMm = spareMm_[v];
    for (const std::uint32_t r : ring) spareMm = std::min(spareMm, spareMm_[r]);
    std::optional<std::size_t> best;
    Off bestOff;
    double bestShape = leastShape_;
    for (std::size_t to = 0; to < ring.size(); ++to) {
      const double shape = shapeOf(places, to);
      if (shape <= bestShape) continue;
      const Off off = before.plus(changeOf(places, to));
      if (off.outMm > bounds_.outMm + spareMm || off.inMm > bounds_.inMm + spareMm || !staysManifold(ring, to)) continue;
      bestShape = shape;
      bestOff = off;
      best = to;
    }
    if (!best) return false;
    replaceStar(v, ring, *best, bestOff);
    return true;
  }

  void replaceStar(std::uint32_t v, const std::vector<std::uint32_t>& ring, std::size_t to, const Off& off) {
    const Star old = std::move(stars_[v]);
    stars_[v].clear();
    for (const std::uint32_t r : ring) {
      std::erase_if(stars_[r], [&](std::uint32_t t) { return std::find(old.begin(), old.end(), t) != old.end(); });
      touched_[r] = true;
    }
    for (std::size_t i = 1; i + 1 < ring.size(); ++i) {
      const std::uint32_t t = old[i - 1];
      mesh_.triangles[t] = {ring[to], ring[(to + i) % ring.size()], ring[(to + i + 1) % ring.size()]};
      off_[t] = off;
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
  ThinningBounds bounds_;
  double leastShape_ = 0;
  std::vector<Star> stars_;
  std::vector<Off> off_;  ///< By triangle: most that it may be off the surface as it was.
  std::vector<bool> touched_;
};

}  // namespace

void thinFlats(LatticeSurface& surface, const ThinningBounds& bounds, const WorkMonitor& monitor) {
  Thinner(surface, bounds).run(monitor);
}

}  // namespace swingroom
