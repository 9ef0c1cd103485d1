#include "core/print/joints/seam_edges.h"

#include <algorithm>
#include <cmath>

#include "core/mesh/surface_topology.h"

namespace swingroom {
namespace {

constexpr double kSeamBend = 0.82;      // Cosine: edges bent by 35 degrees or more are sharp.
constexpr double kSeamOpposed = -0.5;   // Of faces that look at each other over a seam.
constexpr double kSeamSameOuter = 0.7;  // Of outer faces of one seam.
constexpr double kSeamOverlapMm = 0.5;  // Rims that overlap by more are others.
constexpr double kSeamPastMm = 0.05;    // Past the end of a rim there is no seam.

Vector3d freeCorner(const TriangleMesh& mesh, std::uint32_t t, const Vector3d& a,
                    const Vector3d& b) {
  for (int i = 0; i < 3; ++i) {
    const Vector3d& p = mesh.corner(t, i);
    if (p != a && p != b) return p;
  }
  return a;
}

Vector3d nearestOn(const SeamEdge& edge, const Vector3d& p) {
  const Vector3d d = edge.to - edge.from;
  return edge.at(std::clamp((p - edge.from).dot(d) / d.squaredNorm(), 0.0, 1.0));
}

}  // namespace

std::vector<SeamEdge> seamEdgesOf(const TriangleMesh& mesh, const Pose& X_WP,
                                  const Eigen::AlignedBox3d& near_W) {
  const SurfaceTopology topology(mesh);
  std::vector<SeamEdge> edges;
  for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t) {
    for (std::size_t i = 0; i < 3; ++i) {
      const std::uint32_t u = topology.neighbours[t][i];
      if (u == SurfaceTopology::kNone || u < t || topology.cosBend(t, u) > kSeamBend) continue;
      const Vector3d &a = mesh.corner(t, static_cast<int>(i)),
                     &b = mesh.corner(t, static_cast<int>((i + 1) % 3));
      // A rim stands out: the other face falls away behind the first.
      if ((freeCorner(mesh, u, a, b) - a).dot(topology.normals[t]) >= 0) continue;
      SeamEdge edge;
      edge.from = X_WP * a;
      edge.to = X_WP * b;
      Eigen::AlignedBox3d box(edge.from);
      box.extend(edge.to);
      if ((edge.to - edge.from).norm() < 1e-6 || !box.intersects(near_W)) continue;
      for (const auto& [outer, seam] : {std::pair(t, u), std::pair(u, t)}) {
        edge.outer = X_WP.linear() * topology.normals[outer];
        const Vector3d s = X_WP.linear() * topology.normals[seam];
        edge.across = (s - s.dot(edge.outer) * edge.outer).normalized();
        edges.push_back(edge);
      }
    }
  }
  return edges;
}

SeamRims::SeamRims(std::vector<SeamEdge> edges, double reachMm)
    : edges_(std::move(edges)), reachMm_(reachMm) {}

bool SeamRims::fits(const SeamEdge& edge, const SeamEdge& other) const {
  return edge.across.dot(other.across) < kSeamOpposed &&
         edge.outer.dot(other.outer) > kSeamSameOuter;
}

std::optional<SeamReading> SeamRims::readAt(const SeamEdge& edge, const Vector3d& p) const {
  const Vector3d along = (edge.to - edge.from).normalized();
  double least = reachMm_;
  std::optional<SeamReading> best;
  for (const SeamEdge& other : edges_) {
    const Vector3d d = nearestOn(other, p) - p;
    if (d.norm() >= least || !fits(edge, other)) continue;
    const double gap = d.dot(edge.across);
    if (gap < -kSeamOverlapMm) continue;
    const bool past = std::abs(d.dot(along)) > std::max(kSeamPastMm, 0.5 * d.norm());
    least = d.norm();
    // What is nearest decides, even if it is the end of a rim.
    best.reset();
    if (!past) best = SeamReading{gap, d.dot(edge.outer)};
  }
  return best;
}

std::vector<double> SeamRims::endsAlong(const SeamEdge& edge) const {
  std::vector<double> shares;
  const Vector3d d = edge.to - edge.from;
  for (const SeamEdge& other : edges_) {
    if (!fits(edge, other)) continue;
    for (const Vector3d& end : {other.from, other.to}) {
      const double share = (end - edge.from).dot(d) / d.squaredNorm();
      if (share > 0 && share < 1 && (end - edge.at(share)).norm() < reachMm_)
        shares.push_back(share);
    }
  }
  return shares;
}

}  // namespace swingroom
