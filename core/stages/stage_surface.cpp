#include "core/stages/stage_surface.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <numeric>

#include "core/base/parallel.h"

namespace swingroom {
namespace {

using Eigen::AlignedBox3d;
using Eigen::Vector3d;

constexpr double kOffSurfaceMm = 0.002;

Vector3d unitNormal(const TriangleCorners& t) {
  const Vector3d across = (t[1] - t[0]).cross(t[2] - t[0]);
  const double twice = across.norm();
  return twice > 0 ? Vector3d(across / twice) : Vector3d(Vector3d::Zero());
}

TriangleCorners cornersIn(const TriangleMesh& mesh, std::uint32_t t) {
  return {mesh.corner(t, 0), mesh.corner(t, 1), mesh.corner(t, 2)};
}

TriangleMesh withTriangles(const TriangleMesh& mesh, const std::vector<std::uint32_t>& chosen) {
  TriangleMesh some;
  some.vertices = mesh.vertices;
  some.triangles.reserve(chosen.size());
  for (const std::uint32_t t : chosen) some.triangles.push_back(mesh.triangles[t]);
  return some;
}

AlignedBox3d boxOfShell(const TriangleMesh& mesh, const Shell& shell) {
  AlignedBox3d box;
  for (const std::uint32_t t : shell.triangles) {
    for (int i = 0; i < 3; ++i) box.extend(mesh.corner(t, i));
  }
  return box;
}

double squaredToBox(const BoundingTree::Node& node, const Vector3d& p) {
  const Vector3d off = (node.axes.transpose() * (p - node.centre)).cwiseAbs() - node.half;
  return off.cwiseMax(0.0).squaredNorm();
}

}  // namespace

StageSurface::StageSurface(std::shared_ptr<const TriangleMesh> mesh, unsigned threads)
    : mesh_(std::move(mesh)), health_(examine(*mesh_)), bounds_(boundsOf(*mesh_)) {
  plain_ = health_.closed() && health_.insideOutShells == 0;
  std::vector<std::uint32_t> closed;
  for (const Shell& shell : health_.shells) {
    if (shell.closed) closed.insert(closed.end(), shell.triangles.begin(), shell.triangles.end());
  }
  std::sort(closed.begin(), closed.end());
  const bool allClosed = closed.size() == mesh_->triangles.size();
  boundary_ = std::make_shared<const BoundingTree>(allClosed ? *mesh_
                                                             : withTriangles(*mesh_, closed));
  findShown(threads);
  tree_ = allClosed && shellsKeepApart()
              ? boundary_
              : std::make_shared<const BoundingTree>(withTriangles(*mesh_, shown_));
  normals_.reserve(tree_->triangles().size());
  for (const TriangleCorners& t : tree_->triangles()) normals_.push_back(unitNormal(t));
}

void StageSurface::findShown(unsigned threads) {
  shown_.resize(mesh_->triangles.size());
  std::iota(shown_.begin(), shown_.end(), 0u);
  if (health_.shells.size() < 2 || boundary_->empty()) return;
  std::vector<AlignedBox3d> boxes;
  for (const Shell& shell : health_.shells) boxes.push_back(boxOfShell(*mesh_, shell));
  std::vector<std::uint32_t> doubtful;
  for (std::size_t s = 0; s < boxes.size(); ++s) {
    for (const std::uint32_t t : health_.shells[s].triangles) {
      AlignedBox3d box;
      for (int i = 0; i < 3; ++i) box.extend(mesh_->corner(t, i));
      const auto holds = [&](std::size_t other) {
        return other != s && health_.shells[other].closed && boxes[other].contains(box);
      };
      bool held = false;
      for (std::size_t other = 0; other < boxes.size() && !held; ++other) held = holds(other);
      if (held) doubtful.push_back(t);
    }
  }
  std::vector<char> hidden(mesh_->triangles.size(), 0);
  constexpr std::size_t kChunk = 512;
  parallelFor((doubtful.size() + kChunk - 1) / kChunk, threads, [&](std::size_t chunk) {
    const std::size_t end = std::min(doubtful.size(), (chunk + 1) * kChunk);
    for (std::size_t i = chunk * kChunk; i < end; ++i) hidden[doubtful[i]] = isHidden(doubtful[i]);
  });
  std::erase_if(shown_, [&](std::uint32_t t) { return hidden[t] != 0; });
  if (shown_.empty()) {  // Nothing makes sense: keep all.
    shown_.resize(mesh_->triangles.size());
    std::iota(shown_.begin(), shown_.end(), 0u);
  }
}

bool StageSurface::isHidden(std::uint32_t triangle) const {
  const TriangleCorners t = cornersIn(*mesh_, triangle);
  const Vector3d off = kOffSurfaceMm * unitNormal(t);
  const Vector3d middle = (t[0] + t[1] + t[2]) / 3;
  const auto isInside = [&](const Vector3d& p) { return windingNumber(*boundary_, p + off) > 0; };
  if (!isInside(middle)) return false;
  return std::all_of(t.begin(), t.end(), [&](const Vector3d& corner) {
    return isInside(corner + 0.02 * (middle - corner));
  });
}

std::optional<SurfacePoint> StageSurface::nearestFacing(const Vector3d& p, const Vector3d& n,
                                                        double leastCos, double withinMm) const {
  if (tree_->empty()) return std::nullopt;
  std::optional<SurfacePoint> best;
  double bestSquared = withinMm * withinMm;
  struct Entry {
    std::uint32_t node;
    double squared;
  };
  std::vector<Entry> stack{{0, squaredToBox(tree_->root(), p)}};
  while (!stack.empty()) {
    const Entry entry = stack.back();
    stack.pop_back();
    if (!(entry.squared < bestSquared)) continue;
    const BoundingTree::Node& node = tree_->nodes()[entry.node];
    if (!node.isLeaf()) {
      Entry near{node.first, squaredToBox(tree_->nodes()[node.first], p)};
      Entry far{node.first + 1, squaredToBox(tree_->nodes()[node.first + 1], p)};
      if (far.squared < near.squared) std::swap(near, far);
      stack.push_back(far);
      stack.push_back(near);
      continue;
    }
    for (std::uint32_t i = node.first; i < node.first + node.count; ++i) {
      if (!(normals_[i].dot(n) > leastCos)) continue;
      const Vector3d q = closestPointOnTriangle(p, tree_->triangles()[i]);
      const double squared = (q - p).squaredNorm();
      if (!(squared < bestSquared)) continue;
      bestSquared = squared;
      best = SurfacePoint{q, std::sqrt(squared), i};
    }
  }
  return best;
}

}  // namespace swingroom
