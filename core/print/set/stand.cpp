#include "core/print/set/stand.h"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>
#include <map>

#include "core/print/set/bridges.h"
#include "core/print/set/hollows.h"

namespace swingroom {
namespace {

using Eigen::Matrix3d;
using Eigen::Vector2d;

constexpr double kOnBedMm = 0.05;      // Within it of the lowest point, a face lies on the bed.
constexpr double kUprightCos = 0.866;  // 30 degrees: steeper, an axis stands.
constexpr double kRoughRad = 15 * kPi / 180;
constexpr std::size_t kStandFlats = 24;
constexpr std::size_t kStandLooks = 16;  // So many of the best are looked at with bridges and cups.

double standFlatCos(const PrintProcess& process) {
  // Just at the angle is acceptable; rounding must not decide.
  return std::cos(process.overhangRad.value) + 1e-9;
}

/// Directions to put down: the larger flats, each by its largest triangle, and along the axes of
/// the frame, of the mass of the surface and of what is loaded, both ways.
std::vector<Vector3d> downsOf(const StandShape& shape) {
  struct Flat {
    double area = 0, largest = 0;
    Vector3d normal = Vector3d::Zero();
  };
  std::map<std::array<int, 3>, Flat> flats;
  for (std::size_t t = 0; t < shape.areas.size(); ++t) {
    if (shape.areas[t] <= 0) continue;
    const Vector3d& n = shape.normals[t];
    std::array<int, 3> key;
    for (int d = 0; d < 3; ++d)
      key[static_cast<std::size_t>(d)] = static_cast<int>(std::lround(n[d] * 20));
    Flat& flat = flats[key];
    flat.area += shape.areas[t];
    if (shape.areas[t] > flat.largest) {
      flat.largest = shape.areas[t];
      flat.normal = n;
    }
  }
  std::vector<Flat> sorted;
  for (const auto& [key, flat] : flats) sorted.push_back(flat);
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const Flat& a, const Flat& b) { return a.area > b.area; });
  sorted.resize(std::min(sorted.size(), kStandFlats));

  Matrix3d spread = Matrix3d::Zero();
  for (std::size_t t = 0; t < shape.areas.size(); ++t) {
    spread += shape.areas[t] * shape.normals[t] * shape.normals[t].transpose();
  }
  const Matrix3d principal = Eigen::SelfAdjointEigenSolver<Matrix3d>(spread).eigenvectors();
  std::vector<Vector3d> downs;
  const auto add = [&](const Vector3d& down) {
    const bool known = std::any_of(downs.begin(), downs.end(),
                                   [&](const Vector3d& d) { return d.dot(down) > 1 - 1e-9; });
    if (!known) downs.push_back(down);
  };
  for (const Flat& flat : sorted) add(flat.normal);
  for (int d = 0; d < 3; ++d) {
    for (const double way : {1.0, -1.0}) {
      add(way * Vector3d::Unit(d));
      add(way * principal.col(d).normalized());
    }
  }
  for (const LoadedShape& loaded : shape.loaded) {
    const Vector3d side = loaded.along.unitOrthogonal(), other = loaded.along.cross(side);
    for (const Vector3d& down : {side, other}) {
      add(down);
      add(-down);
    }
  }
  return downs;
}

/// Corners of the convex hull, counter-clockwise (Andrew, Information Processing Letters 9, 1979).
std::vector<Vector2d> standHull(std::vector<Vector2d> points) {
  const auto before = [](const Vector2d& a, const Vector2d& b) {
    return a.x() != b.x() ? a.x() < b.x() : a.y() < b.y();
  };
  std::sort(points.begin(), points.end(), before);
  points.erase(std::unique(points.begin(), points.end()), points.end());
  if (points.size() < 3) return points;
  const auto turn = [](const Vector2d& a, const Vector2d& b, const Vector2d& c) {
    return (b - a).x() * (c - a).y() - (b - a).y() * (c - a).x();
  };
  std::vector<Vector2d> hull;
  for (int side = 0; side < 2; ++side) {
    const std::size_t start = hull.size();
    for (const Vector2d& p : points) {
      while (hull.size() >= start + 2 && turn(hull[hull.size() - 2], hull.back(), p) <= 0) {
        hull.pop_back();
      }
      hull.push_back(p);
    }
    hull.pop_back();
    std::reverse(points.begin(), points.end());
  }
  return hull;
}

/// Turn about z after which the footprint's box is least: one of its sides lies on an edge of the
/// hull (Freeman and Shapira, Comm. ACM 18, 1975). If that does not fit and another does, that one.
double yawFor(const std::vector<Vector2d>& hull, const std::array<double, 3>& bed) {
  double best = 0, bestArea = std::numeric_limits<double>::infinity();
  bool bestFits = false;
  const auto offer = [&](double yaw) {
    const Vector2d x(std::cos(yaw), std::sin(yaw)), y(-x.y(), x.x());
    Eigen::AlignedBox2d box;
    for (const Vector2d& p : hull) box.extend(Vector2d(x.dot(p), y.dot(p)));
    const Vector2d size = box.sizes();
    // Rows of the turn are x and y: points are turned by -yaw.
    const bool fits = size.x() <= bed[0] && size.y() <= bed[1];
    if (fits < bestFits || (fits == bestFits && size.prod() >= bestArea * (1 - 1e-9))) return;
    best = yaw;
    bestArea = size.prod();
    bestFits = fits;
  };
  for (std::size_t i = 0; i < hull.size(); ++i) {
    const Vector2d edge = hull[(i + 1) % hull.size()] - hull[i];
    const double yaw = std::atan2(edge.y(), edge.x());
    offer(yaw);
    offer(yaw + kPi / 2);
  }
  if (!bestFits) {
    for (int i = 0; i < 360; ++i) offer(i * kPi / 360);
  }
  return best;
}

Matrix3d turnedDown(const StandShape& shape, const Vector3d& down,
                    const std::array<double, 3>& bed) {
  Matrix3d R;
  R.row(2) = -down;
  R.row(0) = down.unitOrthogonal();
  R.row(1) = Vector3d(R.row(2)).cross(Vector3d(R.row(0)));
  std::vector<Vector2d> flat;
  for (const Vector3d& p : shape.mesh->vertices) flat.emplace_back((R * p).head<2>());
  const double yaw = yawFor(standHull(std::move(flat)), bed);
  return Eigen::AngleAxisd(-yaw, Vector3d::UnitZ()).toRotationMatrix() * R;
}

/// What of the surface looks down how.
struct UnderSide {
  std::vector<bool> overhang;
  double contactMm2 = 0, overhangMm2 = 0, bearingMm2 = 0, roughMm2 = 0;
};

UnderSide underSideOf(const StandShape& shape, const PrintProcess& process, const Matrix3d& R) {
  const Vector3d down = -R.row(2);
  double lowest = -std::numeric_limits<double>::infinity();
  std::vector<double> depth;
  for (const Vector3d& p : shape.mesh->vertices) {
    depth.push_back(down.dot(p));
    lowest = std::max(lowest, depth.back());
  }
  const double limit = standFlatCos(process);
  // What prints without support at all prints no rougher for it.
  const bool supports = process.overhangRad.value > 0;
  const double rough =
      supports ? std::cos(std::min(kPi / 2, process.overhangRad.value + kRoughRad)) : 1;
  UnderSide under;
  under.overhang.assign(shape.areas.size(), false);
  for (std::size_t t = 0; t < shape.areas.size(); ++t) {
    const double facing = shape.normals[t].dot(down);
    if (facing <= 0) continue;
    const Triangle& corners = shape.mesh->triangles[t];
    const bool onBed = std::all_of(corners.begin(), corners.end(),
                                   [&](std::uint32_t v) { return depth[v] >= lowest - kOnBedMm; });
    if (onBed && facing > 0.9) {
      under.contactMm2 += shape.areas[t];
    } else if (facing > limit) {
      under.overhang[t] = true;
      under.overhangMm2 += shape.areas[t];
      if (shape.bearing[t]) under.bearingMm2 += shape.areas[t];
    } else if (!onBed && facing > rough + 1e-9) {
      under.roughMm2 += shape.areas[t];
    }
  }
  return under;
}

double costOf(const BedStand& stand, const StandShape& shape) {
  double cost = stand.supportMm2 + 4 * stand.scarMm2 + stand.roughMm2 / 2 + stand.trappedMm3 / 2;
  for (const LoadedShape& loaded : shape.loaded) {
    if (std::abs(stand.R_BP.row(2).dot(loaded.along)) < kUprightCos) continue;
    const bool isPin = loaded.kind == LoadedShape::Kind::pin;
    const double thin = std::clamp((10 - loaded.acrossMm) / 6, 0.0, 1.0);
    cost += (isPin ? 5 * thin : 3) * loaded.acrossMm * loaded.lengthMm;
  }
  const double footprint = stand.sizeMm.x() * stand.sizeMm.y();
  cost += std::max(0.0, footprint / 5 - stand.contactMm2);
  const double steady = 3 * std::sqrt(stand.contactMm2 + stand.supportMm2 / 2);
  return cost + stand.sizeMm.z() / 2 + 10 * std::max(0.0, stand.sizeMm.z() - steady);
}

/// @param whole  With bridges and cups.
BedStand figuresOf(const StandShape& shape, const PrintProcess& process, const Matrix3d& R,
                bool whole) {
  BedStand stand;
  stand.R_BP = R;
  stand.sizeMm = sizeOf(*shape.mesh, R);
  stand.fits = true;
  for (int d = 0; d < 3; ++d) {
    stand.fits = stand.fits && stand.sizeMm[d] <= process.bedMm[static_cast<std::size_t>(d)] + 1e-9;
  }
  const UnderSide under = underSideOf(shape, process, R);
  stand.contactMm2 = under.contactMm2;
  stand.supportMm2 = under.overhangMm2;
  stand.scarMm2 = under.bearingMm2;
  stand.roughMm2 = under.roughMm2;
  for (const LoadedShape& loaded : shape.loaded) {
    if (std::abs(R.row(2).dot(loaded.along)) < kUprightCos) continue;
    ++(loaded.kind == LoadedShape::Kind::pin ? stand.pinsUpright : stand.tabsUpright);
  }
  if (whole && process.bridgeMm.value > 0 && stand.supportMm2 > 0) {
    const Vector3d down = -R.row(2);
    const std::vector<bool> held = bridgesOf(shape, down, under.overhang, process.bridgeMm.value);
    for (std::size_t t = 0; t < held.size(); ++t) {
      if (!held[t]) continue;
      stand.bridgedMm2 += shape.areas[t];
      stand.supportMm2 -= shape.areas[t];
      if (shape.bearing[t]) stand.scarMm2 -= shape.areas[t];
    }
  }
  if (stand.supportMm2 < kLeastSupportMm2) stand.supportMm2 = 0;
  stand.scarMm2 = std::clamp(stand.scarMm2, 0.0, stand.supportMm2);
  if (whole && process.method == PrintMethod::resin) {
    stand.trappedMm3 = trappedVolume(*shape.mesh, R, stand.contactMm2 > 0);
  }
  stand.cost = costOf(stand, shape);
  return stand;
}

void bestFirst(std::vector<BedStand>& stands) {
  std::stable_sort(stands.begin(), stands.end(), [](const BedStand& a, const BedStand& b) {
    return a.fits != b.fits ? a.fits : a.cost < b.cost;
  });
}

}  // namespace

BedStand standAt(const StandShape& shape, const PrintProcess& process, const Eigen::Matrix3d& R_BP) {
  return figuresOf(shape, process, R_BP, true);
}

std::vector<BedStand> standsOf(const StandShape& shape, const PrintProcess& process, std::size_t most,
                            const WorkMonitor& monitor) {
  std::vector<BedStand> stands;
  for (const Vector3d& down : downsOf(shape)) {
    if (monitor.cancelled()) return {};
    const Matrix3d R = turnedDown(shape, down, process.bedMm);
    stands.push_back(figuresOf(shape, process, R, false));
  }
  bestFirst(stands);
  // Cups are looked at on a grid, which takes longer.
  const bool isResin = process.method == PrintMethod::resin;
  stands.resize(std::min(stands.size(), std::max(most, isResin ? kStandLooks / 2 : kStandLooks)));
  for (BedStand& stand : stands) {
    if (monitor.cancelled()) return {};
    stand = figuresOf(shape, process, stand.R_BP, true);
  }
  bestFirst(stands);
  stands.resize(std::min(stands.size(), most));
  return stands;
}

}  // namespace swingroom
