#include "core/files/step/body_features.h"

#include <BRepAdaptor_Surface.hxx>
#include <BRepGProp.hxx>
#include <GProp_GProps.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>
#include <algorithm>
#include <cmath>
#include <gp_Cylinder.hxx>
#include <gp_Sphere.hxx>
#include <optional>
#include <utility>

#include "core/base/transform.h"

namespace swingroom {
namespace {

// What files of 15 digits and conversions of units leave of the same axis.
constexpr double kSameMm = 1e-6, kSameRad = 1e-7;

Vector3d vectorOf(const gp_XYZ& v) {
  return {v.X(), v.Y(), v.Z()};
}

/// The faces of one cylinder.
struct Barrel {
  CylinderFeature feature;
  Vector3d ahead;                                 ///< Unit, across the axis: angle 0.
  std::vector<std::pair<double, double>> arcs;  ///< From and to, rad.
};

/// Which way the material's outside looks at a place in the middle of the face.
Vector3d outsideAt(const BRepAdaptor_Surface& surface, double u, double v, gp_Pnt& p) {
  gp_Vec du, dv;
  surface.D1(u, v, p, du, dv);
  const Vector3d n = vectorOf(du.XYZ()).cross(vectorOf(dv.XYZ()));
  const bool turned = (surface.Face().Orientation() == TopAbs_REVERSED) !=
                      surface.Trsf().IsNegative();
  return turned ? Vector3d(-n) : n;
}

std::optional<Barrel> barrelOf(const BRepAdaptor_Surface& surface) {
  const double u0 = surface.FirstUParameter(), u1 = surface.LastUParameter();
  const double v0 = surface.FirstVParameter(), v1 = surface.LastVParameter();
  if (!std::isfinite(u1 - u0) || std::abs(v0) > 1e9 || std::abs(v1) > 1e9) return std::nullopt;
  const gp_Cylinder cylinder = surface.Cylinder();
  Barrel barrel;
  CylinderFeature& feature = barrel.feature;
  feature.through = vectorOf(cylinder.Axis().Location().XYZ());
  feature.along = vectorOf(cylinder.Axis().Direction().XYZ());
  feature.radiusMm = cylinder.Radius();
  barrel.ahead = feature.along.unitOrthogonal();
  const Vector3d aside = feature.along.cross(barrel.ahead);
  const auto angleAt = [&](double u) {
    const Vector3d r = vectorOf(surface.Value(u, v0).XYZ()) - feature.through;
    return std::atan2(r.dot(aside), r.dot(barrel.ahead));
  };
  const auto alongAt = [&](double v) {
    return feature.along.dot(vectorOf(surface.Value(u0, v).XYZ()) - feature.through);
  };
  std::tie(feature.fromMm, feature.toMm) = std::minmax(alongAt(v0), alongAt(v1), std::less<>());
  // A surface may count its angle either way round.
  const double start = angleAt(u0), span = std::min(u1 - u0, 2 * kPi);
  const bool forward = std::sin(angleAt(u0 + span / 64) - start) > 0;
  barrel.arcs = {{forward ? start : start - span, forward ? start + span : start}};
  gp_Pnt middle;
  const Vector3d n = outsideAt(surface, (u0 + u1) / 2, (v0 + v1) / 2, middle);
  const Vector3d r = vectorOf(middle.XYZ()) - feature.through;
  feature.outward = n.dot(r - feature.along * feature.along.dot(r)) > 0;
  return barrel;
}

/// `face` in the numbers of `barrel`'s axis, if it lies on the same cylinder and follows it.
bool takeIn(Barrel& barrel, const Barrel& face) {
  CylinderFeature& a = barrel.feature;
  const CylinderFeature& b = face.feature;
  if (a.outward != b.outward || std::abs(a.radiusMm - b.radiusMm) > kSameMm) return false;
  if (a.along.cross(b.along).norm() > kSameRad) return false;
  const Vector3d between = b.through - a.through;
  if (between.cross(a.along).norm() > kSameMm) return false;
  const bool same = a.along.dot(b.along) > 0;
  const double shift = between.dot(a.along);
  const double from = shift + (same ? b.fromMm : -b.toMm), to = shift + (same ? b.toMm : -b.fromMm);
  if (from > a.toMm + kSameMm || to < a.fromMm - kSameMm) return false;
  a.fromMm = std::min(a.fromMm, from);
  a.toMm = std::max(a.toMm, to);
  const Vector3d aside = a.along.cross(barrel.ahead);
  for (const auto& [start, end] : face.arcs) {
    const auto moved = [&](double angle) {
      const Vector3d r = std::cos(angle) * face.ahead +
                         std::sin(angle) * b.along.cross(face.ahead);
      return std::atan2(r.dot(aside), r.dot(barrel.ahead));
    };
    const double first = moved(same ? start : end);
    barrel.arcs.emplace_back(first, first + (end - start));
  }
  return true;
}

/// How much of a turn the arcs cover together.
double coverageOf(const std::vector<std::pair<double, double>>& arcs) {
  std::vector<std::pair<double, double>> pieces;  // Within one turn from 0.
  for (const auto& [from, to] : arcs) {
    if (to - from >= 2 * kPi - kSameRad) return 2 * kPi;
    const double start = from - 2 * kPi * std::floor(from / (2 * kPi)), end = start + (to - from);
    pieces.emplace_back(start, std::min(end, 2 * kPi));
    if (end > 2 * kPi) pieces.emplace_back(0, end - 2 * kPi);
  }
  std::sort(pieces.begin(), pieces.end());
  double covered = 0, reached = 0;
  for (const auto& [start, end] : pieces) {
    covered += std::max(0.0, end - std::max(start, reached));
    reached = std::max(reached, end);
  }
  return covered > 2 * kPi - kSameRad ? 2 * kPi : covered;
}

void addTo(std::vector<Barrel>& barrels, Barrel face) {
  // A face may close the gap between two that were apart until now.
  for (std::size_t i = 0; i < barrels.size();) {
    if (takeIn(face, barrels[i])) {
      barrels.erase(barrels.begin() + static_cast<std::ptrdiff_t>(i));
      i = 0;
    } else {
      ++i;
    }
  }
  barrels.push_back(std::move(face));
}

double areaOf(const TopoDS_Face& face) {
  GProp_GProps properties;
  BRepGProp::SurfaceProperties(face, properties);
  return properties.Mass();
}

void addBall(std::vector<BallFeature>& balls, const BRepAdaptor_Surface& surface) {
  const gp_Sphere sphere = surface.Sphere();
  gp_Pnt p;
  const Vector3d n = outsideAt(surface, (surface.FirstUParameter() + surface.LastUParameter()) / 2,
                               (surface.FirstVParameter() + surface.LastVParameter()) / 2, p);
  BallFeature ball;
  ball.centre = vectorOf(sphere.Location().XYZ());
  ball.radiusMm = sphere.Radius();
  ball.share = std::abs(areaOf(surface.Face())) / sphere.Area();
  ball.outward = n.dot(vectorOf(p.XYZ()) - ball.centre) > 0;
  for (BallFeature& known : balls) {
    if (known.outward == ball.outward && std::abs(known.radiusMm - ball.radiusMm) <= kSameMm &&
        (known.centre - ball.centre).norm() <= kSameMm) {
      known.share = std::min(1.0, known.share + ball.share);
      return;
    }
  }
  ball.share = std::min(1.0, ball.share);
  balls.push_back(ball);
}

}  // namespace

Features featuresOf(const TopoDS_Shape& body) {
  Features features;
  std::vector<Barrel> barrels;
  for (TopExp_Explorer face(body, TopAbs_FACE); face.More(); face.Next()) {
    const BRepAdaptor_Surface surface(TopoDS::Face(face.Current()));
    if (surface.GetType() == GeomAbs_Cylinder) {
      if (auto barrel = barrelOf(surface)) addTo(barrels, *std::move(barrel));
    } else if (surface.GetType() == GeomAbs_Sphere) {
      addBall(features.balls, surface);
    }
  }
  for (Barrel& barrel : barrels) {
    barrel.feature.coverageRad = coverageOf(barrel.arcs);
    features.cylinders.push_back(barrel.feature);
  }
  return features;
}

}  // namespace swingroom
