#include "core/print/walls/wall_surface.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/mesh/weld.h"
#include "core/print/walls/seen_faces.h"
#include "core/tree/point_query.h"

namespace swingroom {
namespace {

using Eigen::Vector3d;

constexpr double kWallSmoothCos = 0.819;  ///< Of 35 degrees.

}  // namespace

WallSurface::WallSurface(const TriangleMesh& mesh, const MeshHealth& health, unsigned threads) {
  takeAll(mesh);
  if (health.shells.size() > 1) {
    SeenFaces seen = seenFaces(mesh, health, threads);
    faces_ = welded(seen.faces);
    triangleOf_ = std::move(seen.triangleOf);
  }
  topology_ = std::make_unique<const SurfaceTopology>(faces_);
  tree_ = std::make_unique<const BoundingTree>(faces_);
  findEdges();
  findTips();
  findSmoothNormals();
  findFacing();
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

void WallSurface::findSmoothNormals() {
  cornerNormals_.resize(faces_.triangles.size());
  for (std::uint32_t t = 0; t < faces_.triangles.size(); ++t) {
    for (std::size_t i = 0; i < 3; ++i) {
      const std::uint32_t v = faces_.triangles[t][i];
      Vector3d sum = Vector3d::Zero();
      for (std::uint32_t k = firstAt_[v]; k < firstAt_[v + 1]; ++k) {
        const std::uint32_t u = facesAt_[k];
        if (normal(u).dot(normal(t)) < kWallSmoothCos) continue;
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

void WallSurface::findFacing() {
  const auto& nodes = tree_->nodes();
  facing_.resize(nodes.size());
  // Children follow their parents: from the last to the first, each node's faces are a run.
  std::vector<std::pair<std::uint32_t, std::uint32_t>> runs(nodes.size());
  for (std::size_t i = nodes.size(); i-- > 0;) {
    const auto& node = nodes[i];
    runs[i] = node.isLeaf() ? std::pair(node.first, node.first + node.count)
                            : std::pair(runs[node.first].first, runs[node.first + 1].second);
    const auto eachNormal = [&](const auto& visit) {
      for (std::uint32_t k = runs[i].first; k < runs[i].second; ++k) {
        const std::uint32_t face = tree_->order()[k];
        if (!normal(face).isZero()) visit(normal(face));
        for (const std::uint32_t groove : grooveAt_[face]) {
          if (groove == SurfaceTopology::kNone) continue;
          for (const Vector3d& n : grooves_[groove].normals) visit(n);
        }
      }
    };
    Vector3d sum = Vector3d::Zero();
    eachNormal([&](const Vector3d& n) { sum += n; });
    if (!(sum.norm() > 1e-9)) continue;
    const Vector3d axis = sum.normalized();
    double cosWidest = 1;
    eachNormal([&](const Vector3d& n) { cosWidest = std::min(cosWidest, axis.dot(n)); });
    // A cone of less than a right angle holds what lies between two of its normals, too.
    if (cosWidest <= 0.01) continue;
    const double most = std::acos(cosWidest) + (60.01 * std::numbers::pi / 180);
    facing_[i] = {axis, std::cos(most)};
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
