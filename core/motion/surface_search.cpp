#include "core/motion/surface_search.h"

#include <algorithm>
#include <cmath>
#include <unsupported/Eigen/BVH>
#include <vector>

#include "core/mesh/closest_points.h"

namespace swingroom {
namespace {

using Box = Eigen::AlignedBox3d;
constexpr double kNever = std::numeric_limits<double>::max();

Box boxOf(const TriangleCorners& triangle) {
  Box box(triangle[0]);
  return box.extend(triangle[1]).extend(triangle[2]);
}

struct NearestToPoint {
  using Scalar = double;
  Vector3d p;
  double best = kNever;  // Squared, like all values here.
  Vector3d nearest = Vector3d::Zero();

  double minimumOnVolume(const Box& box) const {
    const double squared = box.squaredExteriorDistance(p);
    return squared < best ? squared : kNever;
  }
  double minimumOnObject(const TriangleCorners& triangle) {
    const Vector3d q = closestPointOnTriangle(p, triangle);
    const double squared = (q - p).squaredNorm();
    if (squared < best) {
      best = squared;
      nearest = q;
    }
    return squared;
  }
};

struct AnyNear {
  double within;
  bool found = false;

  bool intersectVolumeVolume(const Box& a, const Box& b) const {
    return a.exteriorDistance(b) < within;
  }
  bool intersectVolumeObject(const Box& a, const TriangleCorners& b) const {
    return a.exteriorDistance(boxOf(b)) < within;
  }
  bool intersectObjectVolume(const TriangleCorners& a, const Box& b) const {
    return boxOf(a).exteriorDistance(b) < within;
  }
  bool intersectObjectObject(const TriangleCorners& a, const TriangleCorners& b) {
    found = boxOf(a).exteriorDistance(boxOf(b)) < within &&
            closestBetweenTriangles(a, b).distanceMm < within;
    return found;
  }
};

/// Lower bounds are raised to whole steps, so that surfaces that lie along each other at an even
/// distance do not cost a look at every triangle.
struct LeastGap {
  using Scalar = double;
  double within;
  static constexpr double kStepMm = 0.02;

  double judged(double distance) const { return distance < within ? distance : kNever; }
  double minimumOnVolumeVolume(const Box& a, const Box& b) const {
    const double distance = a.exteriorDistance(b);
    return judged(distance) == kNever ? kNever : distance + kStepMm;
  }
  double minimumOnVolumeObject(const Box& a, const TriangleCorners& b) const {
    return minimumOnVolumeVolume(a, boxOf(b));
  }
  double minimumOnObjectVolume(const TriangleCorners& a, const Box& b) const {
    return minimumOnVolumeVolume(boxOf(a), b);
  }
  double minimumOnObjectObject(const TriangleCorners& a, const TriangleCorners& b) const {
    if (boxOf(a).exteriorDistance(boxOf(b)) >= within) return kNever;
    return judged(closestBetweenTriangles(a, b).distanceMm);
  }
};

struct NearestMeeting {
  using Scalar = double;
  double within;
  Vector3d through, along, x, y;

  Vector3d across(const Vector3d& p) const {
    return {(p - through).dot(x), (p - through).dot(y), 0};
  }
  double fromLine(const Box& box) const {
    const double centre = across(box.center()).norm();
    return std::max(0.0, centre - box.diagonal().norm() / 2);
  }
  double fromLine(const TriangleCorners& t) const {
    return closestPointOnTriangle(Vector3d::Zero(), {across(t[0]), across(t[1]), across(t[2])})
        .norm();
  }
  double minimumOnVolumeVolume(const Box& a, const Box& b) const {
    return a.exteriorDistance(b) < within ? std::max(fromLine(a), fromLine(b)) : kNever;
  }
  double minimumOnVolumeObject(const Box& a, const TriangleCorners& b) const {
    return minimumOnVolumeVolume(a, boxOf(b));
  }
  double minimumOnObjectVolume(const TriangleCorners& a, const Box& b) const {
    return minimumOnVolumeVolume(boxOf(a), b);
  }
  double minimumOnObjectObject(const TriangleCorners& a, const TriangleCorners& b) const {
    if (boxOf(a).exteriorDistance(boxOf(b)) >= within) return kNever;
    if (closestBetweenTriangles(a, b).distanceMm >= within) return kNever;
    return std::max(fromLine(a), fromLine(b));
  }
};

}  // namespace

struct SurfaceSearch::Tree {
  Eigen::KdBVH<double, 3, TriangleCorners> triangles;
};

SurfaceSearch::SurfaceSearch(const TriangleMesh& mesh) : bounds_(boundsOf(mesh)) {
  std::vector<TriangleCorners> triangles(mesh.triangles.size());
  std::vector<Box> boxes(mesh.triangles.size());
  for (std::size_t t = 0; t < triangles.size(); ++t) {
    triangles[t] = {mesh.corner(t, 0), mesh.corner(t, 1), mesh.corner(t, 2)};
    boxes[t] = boxOf(triangles[t]);
  }
  auto tree = std::make_unique<Tree>();
  tree->triangles.init(triangles.begin(), triangles.end(), boxes.begin(), boxes.end());
  tree_ = std::move(tree);
}

SurfaceSearch::~SurfaceSearch() = default;
SurfaceSearch::SurfaceSearch(SurfaceSearch&&) noexcept = default;
SurfaceSearch& SurfaceSearch::operator=(SurfaceSearch&&) noexcept = default;

std::optional<Vector3d> SurfaceSearch::nearestTo(const Vector3d& p, double withinMm) const {
  NearestToPoint query{p, withinMm < 1e150 ? withinMm * withinMm : kNever, Vector3d::Zero()};
  const double limit = query.best;
  Eigen::BVMinimize(tree_->triangles, query);
  if (!(query.best < limit)) return std::nullopt;
  return query.nearest;
}

bool SurfaceSearch::isNear(const SurfaceSearch& other, double withinMm) const {
  if (bounds_.exteriorDistance(other.bounds_) >= withinMm) return false;
  AnyNear query{withinMm};
  Eigen::BVIntersect(tree_->triangles, other.tree_->triangles, query);
  return query.found;
}

std::optional<double> SurfaceSearch::gapTo(const SurfaceSearch& other, double withinMm) const {
  if (bounds_.exteriorDistance(other.bounds_) >= withinMm) return std::nullopt;
  LeastGap query{withinMm};
  const double gap = Eigen::BVMinimize(tree_->triangles, other.tree_->triangles, query);
  if (gap >= withinMm) return std::nullopt;
  return gap;
}

std::optional<double> SurfaceSearch::meetingFromLine(const SurfaceSearch& other, double withinMm,
                                                     const Vector3d& through,
                                                     const Vector3d& along) const {
  if (bounds_.exteriorDistance(other.bounds_) >= withinMm) return std::nullopt;
  const Vector3d x = along.unitOrthogonal();
  NearestMeeting query{withinMm, through, along, x, along.cross(x)};
  const double distance = Eigen::BVMinimize(tree_->triangles, other.tree_->triangles, query);
  if (distance == kNever) return std::nullopt;
  return distance;
}

}  // namespace swingroom
