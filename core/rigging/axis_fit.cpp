#include "core/rigging/axis_fit.h"

#include <algorithm>
#include <cmath>

#include "core/tree/point_query.h"

namespace swingroom {
namespace {

constexpr double kMostOffMm = 0.1;
constexpr double kMostClearanceMm = 1.0;     // On the diameter.
constexpr double kMostInterferenceMm = 0.3;  // Likewise.
constexpr double kShortestMm = 0.3;
constexpr double kPinCoverageRad = radFromDeg(120);
constexpr double kHoleCoverageRad = radFromDeg(190);  // Less would not hold the pin.
constexpr double kBallShare = 0.3;
constexpr double kSocketShare = 0.2;
constexpr double kGripMm = 0.03;  // That something must stand into a pin to grip it.
constexpr double kCosSameAxis = 0.999;

bool fits(double inner, double outer) {
  const double clearance = 2 * (outer - inner);
  return clearance >= -kMostInterferenceMm && clearance <= kMostClearanceMm;
}

/// Where `feature` begins and ends along another axis of its direction.
std::pair<double, double> spanAlong(const CylinderFeature& feature, const Vector3d& through,
                                    const Vector3d& along) {
  const double middle = (feature.through - through).dot(along);
  const double a = middle + feature.fromMm * feature.along.dot(along);
  const double b = middle + feature.toMm * feature.along.dot(along);
  return {std::min(a, b), std::max(a, b)};
}

/// The least distance from the axis of any point of the hole's facets: chords stand into it.
double leastRadius(const RigPart& part, const CylinderFeature& hole) {
  const TriangleMesh& mesh = *part.shape->mesh;
  const double tolerance = 0.005 + hole.residualMm;
  double least = hole.radiusMm;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    Vector3d out[3];
    bool lies = true;
    for (int i = 0; i < 3 && lies; ++i) {
      const Vector3d w = mesh.corner(t, i) - hole.through;
      const double at = w.dot(hole.along);
      out[i] = w - at * hole.along;
      lies = at > hole.fromMm - tolerance && at < hole.toMm + tolerance &&
             std::abs(out[i].norm() - hole.radiusMm) < tolerance;
    }
    if (!lies) continue;
    // A facet of the wall, not of the face at its end.
    const Vector3d normal = (mesh.corner(t, 1) - mesh.corner(t, 0))
                                .cross(mesh.corner(t, 2) - mesh.corner(t, 0))
                                .normalized();
    if (std::abs(normal.dot(hole.along)) > 0.2) continue;
    for (int i = 0; i < 3; ++i) {
      least = std::min(least, ((out[i] + out[(i + 1) % 3]) / 2).norm());
    }
  }
  return least;
}

double leastSocketRadius(const RigPart& part, const BallFeature& socket) {
  const TriangleMesh& mesh = *part.shape->mesh;
  const double tolerance = 0.005 + socket.residualMm;
  double least = socket.radiusMm;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    TriangleCorners corners;
    bool lies = true;
    for (std::size_t i = 0; i < 3 && lies; ++i) {
      corners[i] = mesh.corner(t, static_cast<int>(i));
      lies = std::abs((corners[i] - socket.centre).norm() - socket.radiusMm) < tolerance;
    }
    if (!lies) continue;
    const double d = (closestPointOnTriangle(socket.centre, corners) - socket.centre).norm();
    if (d > socket.radiusMm / 2) least = std::min(least, d);
  }
  return least;
}

/// What of a polygon is on the side of the plane `p.z() <= at` (or above it), z along the pin.
std::vector<Vector3d> clipped(const std::vector<Vector3d>& polygon, double at, bool above) {
  std::vector<Vector3d> kept;
  const auto inside = [&](const Vector3d& p) { return above ? p.z() >= at : p.z() <= at; };
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Vector3d &p = polygon[i], &q = polygon[(i + 1) % polygon.size()];
    if (inside(p)) kept.push_back(p);
    if (inside(p) != inside(q)) kept.push_back(p + (at - p.z()) / (q.z() - p.z()) * (q - p));
  }
  return kept;
}

/// The least distance of a flat polygon from the z axis.
double fromAxis(std::vector<Vector3d> polygon) {
  for (Vector3d& p : polygon) p.z() = 0;
  double least = 1e300;
  for (std::size_t i = 2; i < polygon.size(); ++i) {
    const TriangleCorners fan{polygon[0], polygon[i - 1], polygon[i]};
    least = std::min(least, closestPointOnTriangle(Vector3d::Zero(), fan).norm());
  }
  return least;
}

/// Something of the part stands into the pin between `from` and `to`.
bool grips(const RigPart& part, const CylinderFeature& pin, double from, double to) {
  const Pose X_PW = part.X_WP.inverse();
  const Vector3d through = X_PW * pin.through, z = X_PW.linear() * pin.along;
  const Vector3d x = z.unitOrthogonal(), y = z.cross(x);
  const double least = pin.radiusMm - kGripMm;
  const TriangleMesh& mesh = *part.shape->mesh;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    std::vector<Vector3d> corners;
    for (int i = 0; i < 3; ++i) {
      const Vector3d w = mesh.corner(t, i) - through;
      corners.emplace_back(w.dot(x), w.dot(y), w.dot(z));
    }
    const auto [low, high] = std::minmax({corners[0].z(), corners[1].z(), corners[2].z()});
    if (high < from + kGripMm || low > to - kGripMm || fromAxis(corners) > least) continue;
    corners = clipped(clipped(corners, from + kGripMm, true), to - kGripMm, false);
    if (fromAxis(corners) < least) return true;
  }
  return false;
}

std::optional<FitStretch> stretchOf(const CylinderFeature& pin, const CylinderFeature& hole) {
  if (!fits(pin.radiusMm, hole.radiusMm)) return std::nullopt;
  if (std::abs(pin.along.dot(hole.along)) < kCosSameAxis) return std::nullopt;
  FitStretch stretch;
  stretch.pinFromMm = pin.fromMm;
  stretch.pinToMm = pin.toMm;
  std::tie(stretch.holeFromMm, stretch.holeToMm) = spanAlong(hole, pin.through, pin.along);
  stretch.fromMm = std::max(stretch.pinFromMm, stretch.holeFromMm);
  stretch.toMm = std::min(stretch.pinToMm, stretch.holeToMm);
  if (stretch.toMm - stretch.fromMm < kShortestMm) return std::nullopt;
  if (offAxis(pin, hole, stretch.fromMm, stretch.toMm) > kMostOffMm) return std::nullopt;
  stretch.pinRadiusMm = pin.radiusMm;
  stretch.holeRadiusMm = hole.radiusMm;
  return stretch;
}

/// Of one pin of part `p` in all holes of part `h`.
std::optional<AxisFit> fitOf(const std::vector<RigPart>& parts, std::size_t p, std::size_t h,
                             const CylinderFeature& pinInPart) {
  const CylinderFeature pin = placed(pinInPart, parts[p].X_WP);
  AxisFit fit{p, h, pin.through, pin.along, 0, {}, false};
  for (const CylinderFeature& holeInPart : parts[h].shape->features.cylinders) {
    if (!isHole(holeInPart)) continue;
    const CylinderFeature hole = placed(holeInPart, parts[h].X_WP);
    auto stretch = stretchOf(pin, hole);
    if (!stretch) continue;
    stretch->leastGapMm = leastRadius(parts[h], holeInPart) - pin.radiusMm;
    fit.offAxisMm = std::max(fit.offAxisMm, offAxis(pin, hole, stretch->fromMm, stretch->toMm));
    fit.stretches.push_back(*stretch);
  }
  if (fit.stretches.empty()) return std::nullopt;
  return fit;
}

void shift(AxisFit& fit, double by) {
  fit.through += by * fit.along;
  for (FitStretch& stretch : fit.stretches) {
    for (double* at : {&stretch.fromMm, &stretch.toMm, &stretch.holeFromMm, &stretch.holeToMm,
                       &stretch.pinFromMm, &stretch.pinToMm}) {
      *at -= by;
    }
  }
}

/// A stepped pin is several cylinders on one axis.
bool joinedWith(AxisFit& fit, AxisFit other) {
  if (std::abs(fit.along.dot(other.along)) < kCosSameAxis) return false;
  const Vector3d w = other.through - fit.through;
  const double at = w.dot(fit.along);
  if ((w - at * fit.along).norm() > kMostOffMm) return false;
  const bool turned = fit.along.dot(other.along) < 0;
  for (FitStretch& stretch : other.stretches) {
    for (const auto& [low, high] : {std::pair(&stretch.fromMm, &stretch.toMm),
                                    std::pair(&stretch.holeFromMm, &stretch.holeToMm),
                                    std::pair(&stretch.pinFromMm, &stretch.pinToMm)}) {
      if (turned) std::tie(*low, *high) = std::pair(-*high, -*low);
      *low += at;
      *high += at;
    }
    fit.stretches.push_back(stretch);
  }
  fit.offAxisMm = std::max(fit.offAxisMm, other.offAxisMm);
  return true;
}

void addFits(const std::vector<RigPart>& parts, std::size_t p, std::size_t h,
             std::vector<AxisFit>& fits) {
  const std::size_t first = fits.size();
  for (const CylinderFeature& pin : parts[p].shape->features.cylinders) {
    if (!isPin(pin)) continue;
    auto fit = fitOf(parts, p, h, pin);
    if (!fit) continue;
    for (const FitStretch& stretch : fit->stretches) {
      const CylinderFeature standing = placed(pin, parts[p].X_WP);
      fit->gripped |= grips(parts[h], standing, stretch.fromMm, stretch.toMm);
    }
    bool joined = false;
    for (std::size_t i = first; i < fits.size() && !joined; ++i) {
      joined = joinedWith(fits[i], *fit);
      if (joined) fits[i].gripped |= fit->gripped;
    }
    if (!joined) fits.push_back(std::move(*fit));
  }
}

}  // namespace

double AxisFit::clearanceMm() const {
  double least = stretches.front().clearanceMm();
  for (const FitStretch& stretch : stretches) least = std::min(least, stretch.clearanceMm());
  return least;
}

double AxisFit::leastGapMm() const {
  double least = stretches.front().leastGapMm;
  for (const FitStretch& stretch : stretches) least = std::min(least, stretch.leastGapMm);
  return least;
}

double AxisFit::lengthMm() const {
  double sum = 0;
  for (const FitStretch& stretch : stretches) sum += stretch.toMm - stretch.fromMm;
  return sum;
}

bool isPin(const CylinderFeature& feature) {
  return feature.outward && feature.coverageRad >= kPinCoverageRad;
}

bool isHole(const CylinderFeature& feature) {
  return !feature.outward && feature.coverageRad >= kHoleCoverageRad;
}

double offAxis(const CylinderFeature& feature, const CylinderFeature& other, double from,
               double to) {
  double most = 0;
  for (const double at : {from, to}) {
    const Vector3d w = feature.through + at * feature.along - other.through;
    most = std::max(most, (w - w.dot(other.along) * other.along).norm());
  }
  return most;
}

std::vector<AxisFit> axisFitsBetween(const std::vector<RigPart>& parts, std::size_t a,
                                     std::size_t b) {
  std::vector<AxisFit> fits;
  if (!parts[a].shape || !parts[b].shape) return fits;
  addFits(parts, a, b, fits);
  addFits(parts, b, a, fits);
  for (AxisFit& fit : fits) {
    std::sort(fit.stretches.begin(), fit.stretches.end(),
              [](const FitStretch& x, const FitStretch& y) { return x.fromMm < y.fromMm; });
    double from = fit.stretches.front().fromMm, to = fit.stretches.front().toMm;
    for (const FitStretch& stretch : fit.stretches) to = std::max(to, stretch.toMm);
    shift(fit, (from + to) / 2);
  }
  return fits;
}

std::vector<SocketFit> socketFitsBetween(const std::vector<RigPart>& parts, std::size_t a,
                                         std::size_t b) {
  std::vector<SocketFit> found;
  if (!parts[a].shape || !parts[b].shape) return found;
  for (const auto& [ofBall, ofSocket] : {std::pair(a, b), std::pair(b, a)}) {
    for (const BallFeature& ballInPart : parts[ofBall].shape->features.balls) {
      if (!ballInPart.outward || ballInPart.share < kBallShare) continue;
      const BallFeature ball = placed(ballInPart, parts[ofBall].X_WP);
      for (const BallFeature& socketInPart : parts[ofSocket].shape->features.balls) {
        if (socketInPart.outward || socketInPart.share < kSocketShare) continue;
        const BallFeature socket = placed(socketInPart, parts[ofSocket].X_WP);
        const double off = (ball.centre - socket.centre).norm();
        if (off > kMostOffMm || !fits(ball.radiusMm, socket.radiusMm)) continue;
        found.push_back({ofBall, ofSocket, (ball.centre + socket.centre) / 2, off, ball.radiusMm,
                         socket.radiusMm,
                         leastSocketRadius(parts[ofSocket], socketInPart) - ball.radiusMm});
      }
    }
  }
  return found;
}

}  // namespace swingroom
