#include "core/motion/surface_fit.h"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <limits>
#include <vector>

#include "core/motion/surface_samples.h"
#include "core/motion/surface_search.h"
#include "core/motion/vertex_match.h"

namespace swingroom {
namespace {

constexpr std::size_t kSamples = 500;
constexpr int kRounds = 30;

std::vector<Vector3d> sampled(const std::vector<Vector3d>& points, std::size_t most) {
  std::vector<Vector3d> some;
  const std::size_t stride = points.size() / most + 1;
  for (std::size_t i = 0; i < points.size(); i += stride) some.push_back(points[i]);
  return some;
}

double farthest(const std::vector<Vector3d>& points, const Pose& X, const SurfaceSearch& surface) {
  double most = 0;
  for (const Vector3d& p : points)
    most = std::max(most, (*surface.nearestTo(X * p) - X * p).norm());
  return most;
}

/// Axes by falling spread of the surface, right-handed.
Eigen::Matrix3d principalAxes(const TriangleMesh& mesh, const Vector3d& centroid) {
  Eigen::Matrix3d spread = Eigen::Matrix3d::Zero();
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const Vector3d a = mesh.corner(t, 0) - centroid, b = mesh.corner(t, 1) - centroid,
                   c = mesh.corner(t, 2) - centroid;
    const Vector3d sum = a + b + c;
    spread += (b - a).cross(c - a).norm() *
              (sum * sum.transpose() + a * a.transpose() + b * b.transpose() + c * c.transpose());
  }
  Eigen::Matrix3d axes = Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d>(spread).eigenvectors();
  if (axes.determinant() < 0) axes.col(0) = -axes.col(0);
  return axes;
}

std::vector<Pose> starts(const TriangleMesh& a, const TriangleMesh& b,
                         const std::optional<Pose>& guess) {
  std::vector<Pose> starts{Pose::Identity()};
  if (guess) starts.push_back(*guess);
  const Vector3d fromCentroid = surfaceCentroid(a), toCentroid = surfaceCentroid(b);
  const Eigen::Matrix3d from = principalAxes(a, fromCentroid), to = principalAxes(b, toCentroid);
  const Vector3d signs[] = {{1, 1, 1}, {1, -1, -1}, {-1, 1, -1}, {-1, -1, 1}};
  for (const Vector3d& sign : signs) {
    Pose R = Pose::Identity();
    R.linear() = to * sign.asDiagonal() * from.transpose();
    starts.push_back(translation(toCentroid) * R * translation(-fromCentroid));
  }
  return starts;
}

/// Brings points of one surface onto another, of which the farthest fifth do not count.
class Layer {
 public:
  Layer(const TriangleMesh& a, const TriangleMesh& b)
      : surfaceB_(b), samples_(sampledByArea(a, kSamples)) {}

  Pose laid(Pose X) const {
    for (int round = 0; round < kRounds; ++round) {
      const std::vector<Match> matches = nearest(X);
      Eigen::Matrix3Xd from(3, matches.size()), to(3, matches.size());
      for (std::size_t i = 0; i < matches.size(); ++i) {
        from.col(static_cast<Eigen::Index>(i)) = matches[i].from;
        to.col(static_cast<Eigen::Index>(i)) = matches[i].to;
      }
      const Pose next = fittedDisplacement(from, to);
      const double moved = (next.matrix() - X.matrix()).norm();
      X = next;
      if (moved < 1e-6) break;
    }
    return X;
  }

 private:
  struct Match {
    double squared;
    Vector3d from, to;
  };

  std::vector<Match> nearest(const Pose& X) const {
    std::vector<Match> matches;
    for (const SurfaceSample& sample : samples_) {
      const Vector3d p = X * sample.point;
      const Vector3d q = *surfaceB_.nearestTo(p);
      matches.push_back({(p - q).squaredNorm(), sample.point, q});
    }
    std::stable_sort(matches.begin(), matches.end(),
                     [](const Match& x, const Match& y) { return x.squared < y.squared; });
    matches.resize((matches.size() * 4 + 4) / 5);
    return matches;
  }

  SurfaceSearch surfaceB_;
  std::vector<SurfaceSample> samples_;
};

class MisfitMeter {
 public:
  MisfitMeter(const TriangleMesh& a, const TriangleMesh& b)
      : surfaceA_(a),
        surfaceB_(b),
        pointsA_(sampled(a.vertices, kMost)),
        pointsB_(sampled(b.vertices, kMost)) {}

  double of(const Pose& D) const {
    return std::max(farthest(pointsA_, D, surfaceB_), farthest(pointsB_, D.inverse(), surfaceA_));
  }

 private:
  static constexpr std::size_t kMost = 20'000;
  SurfaceSearch surfaceA_, surfaceB_;
  std::vector<Vector3d> pointsA_, pointsB_;
};

}  // namespace

double largestMisfit(const TriangleMesh& a, const TriangleMesh& b, const Pose& D) {
  return MisfitMeter(a, b).of(D);
}

SurfaceFit laidOnEachOther(const TriangleMesh& a, const TriangleMesh& b,
                           const std::optional<Pose>& guess) {
  const Layer layer(a, b);
  const MisfitMeter meter(a, b);
  SurfaceFit best{Pose::Identity(), std::numeric_limits<double>::infinity()};
  for (const Pose& start : starts(a, b, guess)) {
    const Pose D = layer.laid(start);
    const double residualMm = meter.of(D);
    if (residualMm < best.residualMm) best = {D, residualMm};
  }
  return best;
}

}  // namespace swingroom
