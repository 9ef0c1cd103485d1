#include "core/rigging/facing.h"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>

#include "core/tree/point_query.h"

namespace swingroom {
namespace {

constexpr double kOpposed = -0.7;     // Of two normals that face each other.
constexpr double kDeepestMm = 0.3;    // Parts may overlap so far and still face each other.
constexpr double kFreeShare = 0.12;   // Of area that may stand in the way of a slide: a stop.
constexpr double kStopShare = 0.02;   // Less is a sample at an edge.
constexpr double kAcross = 0.35;      // Of a normal along a direction that it blocks.
constexpr double kGuideShare = 0.06;  // Of all area, that must look each way for a guide.

Vector3d normalOf(const TriangleCorners& t) {
  return (t[1] - t[0]).cross(t[2] - t[0]).normalized();
}

void gather(const RigPart& of, const RigPart& against, double sign,
            std::vector<FacingSample>& found) {
  const Pose X_AO = against.X_WP.inverse() * of.X_WP;
  const Eigen::AlignedBox3d reach(against.shape->bounds.min() - Vector3d::Constant(kFacingMm),
                                  against.shape->bounds.max() + Vector3d::Constant(kFacingMm));
  PointHints hints;
  hints.withinMm = kFacingMm;
  for (const SurfaceSample& sample : of.shape->samples) {
    const Vector3d p = X_AO * sample.point;
    if (!reach.contains(p)) continue;
    const auto nearest = closestPoint(against.shape->tree, p, hints);
    if (!nearest) continue;
    const Vector3d n = X_AO.linear() * sample.normal;
    const Vector3d m = normalOf(against.shape->tree.triangles()[nearest->triangle]);
    const double gap = (nearest->point - p).dot(n);
    if (n.dot(m) > kOpposed || gap < -kDeepestMm) continue;
    found.push_back({sign * (of.X_WP.linear() * sample.normal), sample.areaMm2, gap});
  }
}

double areaAlong(const std::vector<FacingSample>& samples, const Vector3d& d) {
  double area = 0;
  for (const FacingSample& s : samples) {
    if (s.normal_W.dot(d) > kAcross) area += s.areaMm2;
  }
  return area;
}

/// Some face looks each way across `d`.
bool guidedAcross(const std::vector<FacingSample>& samples, const Vector3d& d, double area) {
  constexpr int kWays = 16;
  const Vector3d x = d.unitOrthogonal(), y = d.cross(x);
  for (int i = 0; i < kWays; ++i) {
    const double angle = 2 * kPi * i / kWays;
    const Vector3d way = std::cos(angle) * x + std::sin(angle) * y;
    if (areaAlong(samples, way) < kGuideShare * area) return false;
  }
  return true;
}

/// Faces all round across some direction, as of a pane in its frame: across the one that is open,
/// or any other.
bool isHeld(const std::vector<FacingSample>& samples, const Eigen::Matrix3d& directions,
            double area) {
  Vector3d sum = Vector3d::Zero();
  for (const FacingSample& s : samples) sum += s.areaMm2 * s.normal_W;
  if (sum.norm() > 0.05 * area && guidedAcross(samples, sum.normalized(), area)) return true;
  for (int i = 0; i < 3; ++i) {
    if (guidedAcross(samples, directions.col(i), area)) return true;
  }
  return false;
}

void judge(const std::vector<FacingSample>& samples, Facing& facing) {
  Eigen::Matrix3d sum = Eigen::Matrix3d::Zero();
  for (const FacingSample& s : samples) {
    sum += s.areaMm2 / facing.areaMm2 * s.normal_W * s.normal_W.transpose();
  }
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> solver(sum);
  const Vector3d d = solver.eigenvectors().col(0);
  const double free = solver.eigenvalues()(0);
  if (free <= kFreeShare && guidedAcross(samples, d, facing.areaMm2)) {
    const double ahead = areaAlong(samples, d) / facing.areaMm2;
    const double behind = areaAlong(samples, -d) / facing.areaMm2;
    facing.held = ahead > kStopShare && behind > kStopShare;
    if (facing.held) return;
    const auto away = facing.awayFromStop(d);
    facing.hasStop = away.has_value();
    facing.slide = away.value_or(d);
    return;
  }
  facing.held = free > kFreeShare && isHeld(samples, solver.eigenvectors(), facing.areaMm2);
}

/// The direction again, without what stands in its way or only nearly lies along it.
Vector3d refined(const std::vector<FacingSample>& samples, const Vector3d& d) {
  Eigen::Matrix3d sum = Eigen::Matrix3d::Zero();
  for (const FacingSample& s : samples) {
    if (std::abs(s.normal_W.dot(d)) < 0.1) {
      sum += s.areaMm2 * s.normal_W * s.normal_W.transpose();
    }
  }
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> solver(sum);
  const Vector3d better = solver.eigenvectors().col(0);
  return better.dot(d) < 0 ? Vector3d(-better) : better;
}

}  // namespace

std::optional<Vector3d> Facing::awayFromStop(const Vector3d& along) const {
  const bool ahead = areaAlong(samples, along) > kStopShare * areaMm2;
  const bool behind = areaAlong(samples, -along) > kStopShare * areaMm2;
  if (ahead == behind) return std::nullopt;
  return ahead ? Vector3d(-along) : along;
}

std::optional<Facing> facingBetween(const RigPart& a, const RigPart& b) {
  if (!a.shape || !b.shape) return std::nullopt;
  // The smaller surface has the denser samples.
  const bool bySecond = b.shape->samples.empty() || a.shape->samples.empty() ||
                        b.shape->samples[0].areaMm2 <= a.shape->samples[0].areaMm2;
  Facing facing;
  std::vector<FacingSample>& samples = facing.samples;
  if (bySecond) {
    gather(b, a, 1, samples);
  } else {
    gather(a, b, -1, samples);
  }
  if (samples.empty()) return std::nullopt;
  facing.leastGapMm = samples.front().gapMm;
  for (const FacingSample& s : samples) {
    facing.areaMm2 += s.areaMm2;
    facing.leastGapMm = std::min(facing.leastGapMm, s.gapMm);
  }
  judge(samples, facing);
  if (facing.slide) facing.slide = refined(samples, *facing.slide);
  return facing;
}

}  // namespace swingroom
