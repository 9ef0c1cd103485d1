#include "core/stages/stage_lay.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

using Eigen::Affine3d;
using Eigen::Vector3d;

constexpr std::size_t kPlaces = 900;
using Six = Eigen::Matrix<double, 6, 1>;

/// Places in an order in which each beginning of the list is spread over the surface.
std::vector<SurfaceSample> spreadPlaces(const TriangleMesh& mesh) {
  const std::vector<SurfaceSample> inOrder = sampledByArea(mesh, kPlaces);
  std::vector<SurfaceSample> spread;
  constexpr std::size_t kStride = 9;
  for (std::size_t first = 0; first < kStride; ++first) {
    for (std::size_t i = (first * 4) % kStride; i < inOrder.size(); i += kStride) {
      spread.push_back(inOrder[i]);
    }
  }
  return spread;
}

TriangleMesh shownMesh(const StageSurface& surface) {
  TriangleMesh mesh;
  mesh.vertices = surface.mesh().vertices;
  for (const std::uint32_t t : surface.shown()) mesh.triangles.push_back(surface.mesh().triangles[t]);
  return mesh;
}

Affine3d smallMotion(const Six& six, const Vector3d& about) {
  const Vector3d turn = six.head<3>();
  Affine3d motion = Affine3d::Identity();
  if (turn.norm() > 0) {
    motion.linear() = Eigen::AngleAxisd(turn.norm(), turn.normalized()).toRotationMatrix();
  }
  motion.translation() = about - motion.linear() * about + six.tail<3>();
  return motion;
}

}  // namespace

StageLay::StageLay(const StageSurface& block, const StageSurface& detail, double factor)
    : block_(block),
      detail_(detail),
      factor_(factor),
      sizeMm_(block.bounds().diagonal().norm()),
      capMm_(0.1 * sizeMm_),
      ofBlock_(spreadPlaces(shownMesh(block))),
      ofDetail_(spreadPlaces(shownMesh(detail))) {
  for (SurfaceSample& sample : ofDetail_) sample.point *= factor;
}

double StageLay::apartMm(const Affine3d& Y, std::size_t most) const {
  double sum = 0;
  std::size_t count = 0;
  std::optional<std::uint32_t> near;
  PointHints hints;
  hints.withinMm = capMm_;
  for (std::size_t i = 0; i < std::min(most, ofDetail_.size()); ++i, ++count) {
    const auto found = closestPoint(block_.tree(), Y * ofDetail_[i].point, hints);
    sum += found ? found->distanceMm : capMm_;
  }
  const Affine3d back = Y.inverse(Eigen::Isometry);
  hints.withinMm = capMm_ / factor_;
  for (std::size_t i = 0; i < std::min(most, ofBlock_.size()); ++i, ++count) {
    const Vector3d p = back * ofBlock_[i].point / factor_;
    const auto found = closestPoint(detail_.tree(), p, hints);
    sum += found ? found->distanceMm * factor_ : capMm_;
  }
  return count > 0 ? sum / static_cast<double>(count) : 0;
}

Affine3d StageLay::laid(Affine3d Y, int rounds, std::size_t most, By by) const {
  const Vector3d about = blockMiddle();
  for (int round = 0; round < rounds; ++round) {
    std::vector<Six> rows;
    std::vector<double> off;
    for (std::size_t i = 0; i < std::min(most, ofDetail_.size()); ++i) {
      const Vector3d p = Y * ofDetail_[i].point;
      const Vector3d n = Y.linear() * ofDetail_[i].normal;
      const auto near = block_.nearestFacing(p, n, 0.2, 2 * capMm_);
      if (!near) continue;
      const Vector3d& m = block_.normal(near->triangle);
      Six row;
      row << (p - about).cross(m), m;
      if (by == By::shifts) row.head<3>().setZero();
      rows.push_back(row);
      off.push_back(m.dot(near->point - p));
    }
    if (rows.size() < 12) return Y;
    Six step = Six::Zero();
    // Absolute deviations: each place counts by one over what it is off.
    for (int again = 0; again < 8; ++again) {
      Eigen::Matrix<double, 6, 6> A = 1e-9 * sizeMm_ * Eigen::Matrix<double, 6, 6>::Identity();
      Six b = Six::Zero();
      for (std::size_t i = 0; i < rows.size(); ++i) {
        const double weight = 1 / std::max(1e-5 * sizeMm_, std::abs(off[i] - rows[i].dot(step)));
        A += weight * rows[i] * rows[i].transpose();
        b += weight * off[i] * rows[i];
      }
      step = A.ldlt().solve(b);
    }
    if (!step.allFinite()) return Y;
    const double turn = step.head<3>().norm();
    if (turn > 0.4) step *= 0.4 / turn;
    Y = smallMotion(step, about) * Y;
    if (step.tail<3>().norm() + turn * sizeMm_ < 1e-5 * sizeMm_) break;
  }
  return Y;
}

}  // namespace swingroom
