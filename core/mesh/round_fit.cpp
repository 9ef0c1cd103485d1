#include "core/mesh/round_fit.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

using Eigen::Vector3d;

constexpr int kMostFitRounds = 12;
constexpr double kLeastPivot = 1e-7;  // Of the largest: else the points do not tell the unknown.
constexpr double kWidest = 1e3;       // A radius of so many times the points' reach is flat.

Vector3d middleOf(const std::vector<Vector3d>& points) {
  Vector3d sum = Vector3d::Zero();
  for (const Vector3d& p : points) sum += p;
  return sum / static_cast<double>(points.size());
}

double reachOf(const std::vector<Vector3d>& points, const Vector3d& middle) {
  double most = 0;
  for (const Vector3d& p : points) most = std::max(most, (p - middle).squaredNorm());
  return std::sqrt(most);
}

/// Solves the normal equations of a small least-squares step; none if they are near singular.
template <int N>
std::optional<Eigen::Matrix<double, N, 1>> solved(const Eigen::Matrix<double, N, N>& JtJ,
                                                  const Eigen::Matrix<double, N, 1>& Jtr) {
  const Eigen::LDLT<Eigen::Matrix<double, N, N>> factors(JtJ);
  const auto pivots = factors.vectorD();
  if (factors.info() != Eigen::Success ||
      !(pivots.minCoeff() > kLeastPivot * kLeastPivot * pivots.maxCoeff())) {
    return std::nullopt;
  }
  return factors.solve(Jtr);
}

/// A circle through points in a plane: Kasa's linear fit, a start for the exact one.
std::optional<Vector3d> circleOf(const std::vector<Vector3d>& points, const Vector3d& middle,
                                 double reach, const Vector3d& x, const Vector3d& y) {
  Eigen::Matrix3d AtA = Eigen::Matrix3d::Zero();
  Vector3d Atb = Vector3d::Zero();
  for (const Vector3d& p : points) {
    const Vector3d w = (p - middle) / reach;
    const double u = w.dot(x), v = w.dot(y);
    const Vector3d row(u, v, 1);
    AtA += row * row.transpose();
    Atb += row * (u * u + v * v);
  }
  const auto found = solved<3>(AtA, Atb);
  if (!found) return std::nullopt;
  const double cu = found->x() / 2, cv = found->y() / 2;
  const double squared = found->z() + cu * cu + cv * cv;
  if (!(squared > 0)) return std::nullopt;
  return Vector3d(cu * reach, cv * reach, std::sqrt(squared) * reach);
}

/// One round of Gauss and Newton. Lengths over `reach`, so that all unknowns are of one size.
bool improve(const std::vector<Vector3d>& points, double reach, CylinderFit& fit) {
  const Vector3d x = fit.along.unitOrthogonal(), y = fit.along.cross(x);
  Eigen::Matrix<double, 5, 5> JtJ = Eigen::Matrix<double, 5, 5>::Zero();
  Eigen::Matrix<double, 5, 1> Jtr = Eigen::Matrix<double, 5, 1>::Zero();
  for (const Vector3d& p : points) {
    const Vector3d w = p - fit.through;
    const double t = w.dot(fit.along);
    const Vector3d out = w - t * fit.along;
    const double distance = out.norm();
    if (distance == 0) continue;
    const double u = out.dot(x) / distance, v = out.dot(y) / distance;
    // Of the distance by a shift of the axis, its tilt, and the radius.
    Eigen::Matrix<double, 5, 1> row;
    row[0] = -u;
    row[1] = -v;
    row[2] = -u * t / reach;
    row[3] = -v * t / reach;
    row[4] = -1;
    JtJ += row * row.transpose();
    Jtr += row * ((fit.radiusMm - distance) / reach);
  }
  const auto step = solved<5>(JtJ, Jtr);
  if (!step) return false;
  fit.through += reach * ((*step)(0) * x + (*step)(1) * y);
  fit.along = (fit.along + (*step)(2) * x + (*step)(3) * y).normalized();
  fit.radiusMm += reach * (*step)(4);
  return true;
}

double residualOf(const std::vector<Vector3d>& points, const CylinderFit& fit) {
  double most = 0;
  for (const Vector3d& p : points) {
    most = std::max(most, std::abs(fit.outTo(p).norm() - fit.radiusMm));
  }
  return most;
}

double residualOf(const std::vector<Vector3d>& points, const BallFit& fit) {
  double most = 0;
  for (const Vector3d& p : points) {
    most = std::max(most, std::abs((p - fit.centre).norm() - fit.radiusMm));
  }
  return most;
}

double squaresOf(const std::vector<Vector3d>& points, const CylinderFit& fit) {
  double sum = 0;
  for (const Vector3d& p : points) {
    const double off = fit.outTo(p).norm() - fit.radiusMm;
    sum += off * off;
  }
  return sum;
}

double squaresOf(const std::vector<Vector3d>& points, const BallFit& fit) {
  double sum = 0;
  for (const Vector3d& p : points) {
    const double off = (p - fit.centre).norm() - fit.radiusMm;
    sum += off * off;
  }
  return sum;
}

bool improve(const std::vector<Vector3d>& points, double reach, BallFit& fit) {
  Eigen::Matrix4d JtJ = Eigen::Matrix4d::Zero();
  Eigen::Vector4d Jtr = Eigen::Vector4d::Zero();
  for (const Vector3d& p : points) {
    const Vector3d out = p - fit.centre;
    const double distance = out.norm();
    if (distance == 0) continue;
    const Eigen::Vector4d row(-out.x() / distance, -out.y() / distance, -out.z() / distance, -1);
    JtJ += row * row.transpose();
    Jtr += row * ((fit.radiusMm - distance) / reach);
  }
  const auto step = solved<4>(JtJ, Jtr);
  if (!step) return false;
  fit.centre += reach * step->head<3>();
  fit.radiusMm += reach * (*step)(3);
  return true;
}

/// As far as rounds make it better.
template <typename Fit>
bool settle(const std::vector<Vector3d>& points, double reach, Fit& fit) {
  double before = squaresOf(points, fit);
  for (int round = 0; round < kMostFitRounds; ++round) {
    Fit next = fit;
    if (!improve(points, reach, next)) return round > 0;
    const double now = squaresOf(points, next);
    if (!(now < before)) break;
    fit = next;
    if (now > before * (1 - 1e-6)) break;
    before = now;
  }
  return fit.radiusMm > 0 && fit.radiusMm < kWidest * reach;
}

}  // namespace

std::optional<CylinderFit> cylinderThrough(const std::vector<Vector3d>& points,
                                           const Vector3d& alongAbout) {
  if (points.size() < 6) return std::nullopt;
  const Vector3d middle = middleOf(points);
  const double reach = reachOf(points, middle);
  if (!(reach > 0)) return std::nullopt;
  CylinderFit fit;
  fit.along = alongAbout.normalized();
  const Vector3d x = fit.along.unitOrthogonal(), y = fit.along.cross(x);
  const auto circle = circleOf(points, middle, reach, x, y);
  if (!circle) return std::nullopt;
  fit.through = middle + circle->x() * x + circle->y() * y;
  fit.radiusMm = circle->z();
  if (!settle(points, reach, fit)) return std::nullopt;
  fit.through += (middle - fit.through).dot(fit.along) * fit.along;
  fit.residualMm = residualOf(points, fit);
  return fit;
}

std::optional<BallFit> ballThrough(const std::vector<Vector3d>& points) {
  if (points.size() < 5) return std::nullopt;
  const Vector3d middle = middleOf(points);
  const double reach = reachOf(points, middle);
  if (!(reach > 0)) return std::nullopt;
  Eigen::Matrix4d AtA = Eigen::Matrix4d::Zero();
  Eigen::Vector4d Atb = Eigen::Vector4d::Zero();
  for (const Vector3d& p : points) {
    const Vector3d w = (p - middle) / reach;
    const Eigen::Vector4d row(w.x(), w.y(), w.z(), 1);
    AtA += row * row.transpose();
    Atb += row * w.squaredNorm();
  }
  const auto found = solved<4>(AtA, Atb);
  if (!found) return std::nullopt;
  const Vector3d c = found->head<3>() / 2;
  const double squared = (*found)(3) + c.squaredNorm();
  if (!(squared > 0)) return std::nullopt;
  BallFit fit{middle + reach * c, reach * std::sqrt(squared), 0};
  if (!settle(points, reach, fit)) return std::nullopt;
  fit.residualMm = residualOf(points, fit);
  return fit;
}

}  // namespace swingroom
