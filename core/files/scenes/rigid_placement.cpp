#include "core/files/scenes/rigid_placement.h"

#include <Eigen/SVD>
#include <algorithm>
#include <cmath>

#include "core/files/document/inferred_document.h"
#include "core/files/document/json_value.h"

namespace swingroom {
namespace {

constexpr double kSameMm = 0.001;     // Far below what prints, far above single precision.
constexpr double kSameShare = 1e-5;   // Numbers of six digits.
constexpr double kWrittenMm = 1e-5;   // What rounding of a placement for the file may move.
constexpr double kScaledMm = 1e-4;    // What rounding of a scale may: it is seldom an odd number.
constexpr double kFlat = 1e-6;

std::string factorText(double factor) {
  return numberText(std::round(factor * 1e4) / 1e4);
}

/// What a linear map that keeps no shape does, as a clause.
std::string distortionText(const Eigen::Matrix3d& A, const Vector3d& stretches) {
  const Vector3d own(A.col(0).norm(), A.col(1).norm(), A.col(2).norm());
  const Eigen::Matrix3d N = A * own.cwiseInverse().asDiagonal();
  const bool alongOwnAxes = (N.transpose() * N - Eigen::Matrix3d::Identity()).norm() < 1e-4;
  if (!alongOwnAxes) {
    return "is sheared: it stands stretched by " + factorText(stretches.x()) + ", " +
           factorText(stretches.y()) + " and " + factorText(stretches.z()) + " across its own axes";
  }
  return "is stretched by " + factorText(own.x()) + ", " + factorText(own.y()) + " and " +
         factorText(own.z()) + " along its own axes, which is no rigid placement";
}

/// Of the three planes that one's own axes stand on, the one that leaves the least turn.
DocumentMirror bestMirror(const Eigen::Matrix3d& improper) {
  int best = 0;
  double most = -10;
  for (int axis = 0; axis < 3; ++axis) {
    const double trace = improper.trace() - 2 * improper(axis, axis);
    if (trace <= most + 1e-9) continue;
    most = trace;
    best = axis;
  }
  DocumentMirror mirror;
  mirror.normal = {0, 0, 0};
  mirror.normal[static_cast<std::size_t>(best)] = 1;
  return mirror;
}

Eigen::Matrix3d reflection(const DocumentMirror& mirror) {
  const Vector3d n = Vector3d(mirror.normal.data()).normalized();
  return Eigen::Matrix3d::Identity() - 2 * n * n.transpose();
}

/// Without the noise of single precision.
double tidyScale(double scale, double reachMm) {
  return roundedWithin(scale, kScaledMm / std::max(reachMm, 1.0));
}

}  // namespace

Eigen::Affine3d RigidPlacement::whole() const {
  Eigen::Affine3d X(X_WP.matrix());
  if (mirror) X.linear() = X.linear() * reflection(*mirror);
  X.linear() *= scale;
  return X;
}

PlacementTry rigidPlacementOf(const Eigen::Affine3d& X_WS, const TriangleMesh& surface) {
  const Eigen::Matrix3d A = X_WS.linear();
  const Eigen::JacobiSVD<Eigen::Matrix3d> svd(A, Eigen::ComputeFullU | Eigen::ComputeFullV);
  const Vector3d stretches = svd.singularValues();
  if (!A.allFinite() || stretches.z() <= kFlat * std::max(stretches.x(), 1e-12)) {
    return {{}, "is flattened to nothing where it stands: its scale is 0 along some axis"};
  }
  RigidPlacement made;
  const double reachMm = reachOf(surface);
  made.scale = tidyScale(stretches.mean(), reachMm);
  Eigen::Matrix3d Q = svd.matrixU() * svd.matrixV().transpose();
  if (Q.determinant() < 0) {
    made.mirror = bestMirror(Q);
    Q = Q * reflection(*made.mirror);
  }
  made.X_WP.linear() = Q;
  made.X_WP.translation() = X_WS.translation();
  const Eigen::Affine3d whole = made.whole();
  const double sizeMm = made.scale * boundsOf(surface).diagonal().norm();
  for (const Vector3d& v : surface.vertices) {
    if ((X_WS * v - whole * v).norm() > std::max(kSameMm, kSameShare * sizeMm)) {
      return {made, distortionText(A, stretches)};
    }
  }
  return {made, ""};
}

std::optional<DocumentPlacement> writtenPlacement(const Pose& X_WP, double reachMm) {
  DocumentPlacement placement;
  Eigen::Quaterniond turn(X_WP.linear());
  if (turn.w() < 0) turn.coeffs() = -turn.coeffs();
  const double tolerance = kWrittenMm / (4 * std::max(reachMm, 1.0));
  placement.turn = {roundedWithin(turn.w(), tolerance), roundedWithin(turn.x(), tolerance),
                    roundedWithin(turn.y(), tolerance), roundedWithin(turn.z(), tolerance)};
  for (int i = 0; i < 3; ++i) {
    placement.at[static_cast<std::size_t>(i)] = roundedWithin(X_WP.translation()[i], kWrittenMm);
  }
  if (placement == DocumentPlacement()) return std::nullopt;
  return placement;
}

double reachOf(const TriangleMesh& surface) {
  double reach = 0;
  for (const Vector3d& v : surface.vertices) reach = std::max(reach, v.norm());
  return reach;
}

}  // namespace swingroom
