#include "core/motion/vertex_match.h"

#include <algorithm>
#include <cmath>

#include "core/motion/surface_search.h"

namespace swingroom {
namespace {

constexpr std::size_t kMostMatches = 360;
constexpr std::size_t kMostTries = 50'000'000;  // Of second corners; a second.
constexpr std::size_t kMostLooks = 20'000;      // At a whole displacement; likewise.
constexpr std::size_t kMostFits = 1000;         // Of those, refined; a few seconds.
constexpr std::size_t kCheckedVertices = 1000;

/// Vertices from the centroid, by rising distance from it.
struct Corners {
  std::vector<Vector3d> points;
  std::vector<double> distances;

  explicit Corners(const TriangleMesh& mesh, const Vector3d& centroid) {
    for (const Vector3d& v : mesh.vertices) points.push_back(v - centroid);
    std::sort(points.begin(), points.end(), [](const Vector3d& a, const Vector3d& b) {
      return a.squaredNorm() < b.squaredNorm();
    });
    for (const Vector3d& p : points) distances.push_back(p.norm());
  }

  /// Range of indices of points at `distance` from the centroid.
  std::pair<std::size_t, std::size_t> at(double distance, double tolerance) const {
    const auto low = std::lower_bound(distances.begin(), distances.end(), distance - tolerance);
    const auto high = std::upper_bound(low, distances.end(), distance + tolerance);
    return {static_cast<std::size_t>(low - distances.begin()),
            static_cast<std::size_t>(high - distances.begin())};
  }
};

/// A mesh of one zero triangle a vertex, so that the nearest surface point is the nearest vertex.
SurfaceSearch vertexSearch(const std::vector<Vector3d>& points) {
  TriangleMesh mesh{points, {}};
  for (std::uint32_t i = 0; i < points.size(); ++i) mesh.triangles.push_back({i, i, i});
  return SurfaceSearch(mesh);
}

Eigen::Matrix3d frameOf(const Vector3d& first, const Vector3d& second) {
  Eigen::Matrix3d frame;
  frame.col(0) = first.normalized();
  frame.col(2) = first.cross(second).normalized();
  frame.col(1) = frame.col(2).cross(frame.col(0));
  return frame;
}

class Matcher {
 public:
  Matcher(const TriangleMesh& a, const TriangleMesh& b, double toleranceMm)
      : tolerance_(toleranceMm),
        centroidA_(surfaceCentroid(a)),
        centroidB_(surfaceCentroid(b)),
        a_(a, centroidA_),
        b_(b, centroidB_),
        searchA_(vertexSearch(a_.points)),
        searchB_(vertexSearch(b_.points)) {}

  std::vector<Pose> matches() {
    if (chooseAnchors()) tryAll();
    std::stable_sort(found_.begin(), found_.end(), [](const Pose& x, const Pose& y) {
      return x.linear().trace() > y.linear().trace() + 1e-9;
    });
    for (Pose& X : found_) X = translation(centroidB_) * X * translation(-centroidA_);
    return std::move(found_);
  }

 private:
  /// Of the corners well away from the centroid one at the rarest distance, then one well off the
  /// line through the first that few others could be mistaken for.
  bool chooseAnchors() {
    if (a_.points.size() < 3) return false;
    const double farthest = a_.distances.back();
    std::size_t fewest = a_.points.size() + 1;
    for (std::size_t i = a_.points.size(); i-- > 0 && a_.distances[i] >= farthest / 2;) {
      const auto [low, high] = a_.at(a_.distances[i], tolerance_);
      if (high - low >= fewest) continue;
      fewest = high - low;
      first_ = a_.points[i];
    }
    const Vector3d axis = first_.normalized();
    double widest = 0;
    for (const Vector3d& p : a_.points) widest = std::max(widest, axis.cross(p).norm());
    if (widest < 10 * tolerance_) return false;
    return chooseSecond(axis, widest);
  }

  bool chooseSecond(const Vector3d& axis, double widest) {
    constexpr std::size_t kLookedAt = 64;
    std::vector<Vector3d> usable;
    for (const Vector3d& p : a_.points) {
      if (axis.cross(p).norm() >= 0.4 * widest) usable.push_back(p);
    }
    const std::size_t stride = usable.size() / kLookedAt + 1;
    std::size_t fewest = a_.points.size() + 1;
    for (std::size_t i = usable.size(); i-- > 0;) {
      if (i % stride != 0) continue;
      std::size_t alike = 0;
      const auto [low, high] = a_.at(usable[i].norm(), tolerance_);
      const double apart = (usable[i] - first_).norm();
      for (std::size_t k = low; k < high; ++k) {
        alike += std::abs((a_.points[k] - first_).norm() - apart) <= tolerance_;
      }
      if (alike >= fewest) continue;
      fewest = alike;
      second_ = usable[i];
    }
    return fewest <= a_.points.size();
  }

  void tryAll() {
    const Eigen::Matrix3d frameA = frameOf(first_, second_);
    const double apart = (second_ - first_).norm();
    const auto [low1, high1] = b_.at(first_.norm(), 2 * tolerance_);
    const auto [low2, high2] = b_.at(second_.norm(), 2 * tolerance_);
    std::size_t tries = 0;
    for (std::size_t i = low1; i < high1; ++i) {
      for (std::size_t k = low2; k < high2; ++k) {
        if (++tries > kMostTries || found_.size() >= kMostMatches) return;
        if (std::abs((b_.points[k] - b_.points[i]).norm() - apart) > 2 * tolerance_) continue;
        tryOne(frameOf(b_.points[i], b_.points[k]) * frameA.transpose());
      }
    }
  }

  bool isFound(const Eigen::Matrix3d& R) const {
    return std::any_of(found_.begin(), found_.end(),
                       [&](const Pose& X) { return (X.linear() - R).norm() < 1e-3; });
  }

  void tryOne(const Eigen::Matrix3d& R) {
    if (looks_ >= kMostLooks || fits_ >= kMostFits || isFound(R)) return;
    Pose X = Pose::Identity();
    X.linear() = R;
    ++looks_;
    if (!fits(X, a_, searchB_, 4 * tolerance_, 24)) return;
    ++fits_;
    for (int round = 0; round < 2; ++round) X = refined(X);
    if (isFound(X.linear())) return;
    if (!fits(X, a_, searchB_, tolerance_, kCheckedVertices)) return;
    if (!fits(X.inverse(), b_, searchA_, tolerance_, kCheckedVertices)) return;
    found_.push_back(X);
  }

  static bool fits(const Pose& X, const Corners& corners, const SurfaceSearch& others,
                   double within, std::size_t samples) {
    const std::size_t stride = corners.points.size() / samples + 1;
    for (std::size_t i = corners.points.size() - 1; i < corners.points.size(); i -= stride) {
      if (!others.nearestTo(X * corners.points[i], within)) return false;
    }
    return true;
  }

  Pose refined(const Pose& X) const {
    const std::size_t stride = a_.points.size() / kCheckedVertices + 1;
    std::vector<std::pair<Vector3d, Vector3d>> pairs;
    for (std::size_t i = 0; i < a_.points.size(); i += stride) {
      const auto q = searchB_.nearestTo(X * a_.points[i], 8 * tolerance_);
      if (q) pairs.emplace_back(a_.points[i], *q);
    }
    Eigen::Matrix3Xd from(3, pairs.size()), to(3, pairs.size());
    for (std::size_t i = 0; i < pairs.size(); ++i) {
      from.col(static_cast<Eigen::Index>(i)) = pairs[i].first;
      to.col(static_cast<Eigen::Index>(i)) = pairs[i].second;
    }
    return pairs.size() < 3 ? X : fittedDisplacement(from, to);
  }

  double tolerance_;
  Vector3d centroidA_, centroidB_;
  Corners a_, b_;  // From the centroids.
  SurfaceSearch searchA_, searchB_;
  Vector3d first_ = Vector3d::Zero(), second_ = Vector3d::Zero();
  std::size_t looks_ = 0, fits_ = 0;
  std::vector<Pose> found_;
};

}  // namespace

std::vector<Pose> matchVertices(const TriangleMesh& a, const TriangleMesh& b, double toleranceMm) {
  return Matcher(a, b, toleranceMm).matches();
}

Vector3d surfaceCentroid(const TriangleMesh& mesh) {
  const Vector3d near = boundsOf(mesh).center();  // Far from the origin digits would be lost.
  Vector3d sum = Vector3d::Zero();
  double area = 0;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const Vector3d a = mesh.corner(t, 0) - near, b = mesh.corner(t, 1) - near,
                   c = mesh.corner(t, 2) - near;
    const double twice = (b - a).cross(c - a).norm();
    area += twice;
    sum += twice * (a + b + c) / 3;
  }
  return area > 0 ? Vector3d(near + sum / area) : near;
}

Pose fittedDisplacement(const Eigen::Matrix3Xd& from, const Eigen::Matrix3Xd& to) {
  return Pose(Eigen::umeyama(from, to, false));
}

}  // namespace swingroom
