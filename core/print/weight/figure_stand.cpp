#include "core/print/weight/figure_stand.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/mesh/triangle_mesh.h"

namespace swingroom {
namespace {

using Eigen::Vector2d;

/// Level directions and up: right-handed.
struct FloorFrame {
  Vector3d across, along, up;

  explicit FloorFrame(const Vector3d& up_W) : up(up_W) {
    Eigen::Index least = 0;
    up.cwiseAbs().minCoeff(&least);
    across = (Vector3d::Unit(least) - up * up(least)).normalized();
    along = up.cross(across);
  }
  Vector2d flat(const Vector3d& p) const { return {across.dot(p), along.dot(p)}; }
  Vector3d level(const Vector2d& v) const { return across * v.x() + along * v.y(); }
};

struct FlatPoint {
  Vector2d at;
  FloorPoint point;
};

double turn(const Vector2d& a, const Vector2d& b, const Vector2d& c) {
  return (b.x() - a.x()) * (c.y() - a.y()) - (b.y() - a.y()) * (c.x() - a.x());
}

/// Corners of the hull, counter-clockwise; two for a line, one for a point. Corners that stick out
/// by less than 1e-6 mm are left out. Andrew, Information Processing Letters 9(5), 1979.
std::vector<FlatPoint> flatHull(std::vector<FlatPoint> points) {
  std::sort(points.begin(), points.end(), [](const FlatPoint& a, const FlatPoint& b) {
    return a.at.x() != b.at.x() ? a.at.x() < b.at.x() : a.at.y() < b.at.y();
  });
  std::vector<FlatPoint> hull;
  for (int side = 0; side < 2; ++side) {
    const std::size_t start = hull.size();
    for (const FlatPoint& p : points) {
      while (hull.size() >= start + 2) {
        const Vector2d& a = hull[hull.size() - 2].at;
        const Vector2d& b = hull.back().at;
        if (turn(a, b, p.at) > 1e-6 * (p.at - a).norm()) break;
        hull.pop_back();
      }
      hull.push_back(p);
    }
    hull.pop_back();
    std::reverse(points.begin(), points.end());
  }
  if (hull.size() == 2 && (hull[0].at - hull[1].at).norm() < 1e-6) hull.pop_back();
  if (hull.empty() && !points.empty()) hull.push_back(points.front());
  return hull;
}

class StandBuilder {
 public:
  StandBuilder(const Assembly& assembly, const HungFigure& figure, const Vector3d& up_W)
      : assembly_(assembly), figure_(figure), frame_(up_W) {}

  FigureStand build(double toleranceMm) {
    standing_.toleranceMm = toleranceMm;
    standing_.mass = figure_.whole();
    findFloor();
    if (standing_.mass.massG <= 0 || !std::isfinite(standing_.floorMm)) return standing_;
    standing_.heightMm = frame_.up.dot(standing_.mass.centre_W) - standing_.floorMm;
    standing_.marginOffMm = standing_.mass.centreOffMm;
    findPoints();
    const std::vector<FlatPoint> hull = flatHull(all_);
    if (hull.size() < 3)
      judgeNarrow(hull);
    else
      judgePolygon(hull);
    return standing_;
  }

 private:
  void forEachCorner(PartId id, const auto& take) const {
    const Part& part = assembly_.part(id);
    if (!part.mesh || figure_.standsApart(id)) return;
    const Pose X = figure_.displacements()[id.index] * part.X_WP_home;
    for (const Vector3d& corner : part.mesh->vertices) take(X * corner);
  }

  void findFloor() {
    standing_.floorMm = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < assembly_.parts().size(); ++i) {
      forEachCorner(PartId{i}, [&](const Vector3d& p) {
        standing_.floorMm = std::min(standing_.floorMm, frame_.up.dot(p));
      });
    }
  }

  void findPoints() {
    for (std::size_t i = 0; i < assembly_.parts().size(); ++i) {
      std::vector<FlatPoint> own;
      forEachCorner(PartId{i}, [&](const Vector3d& p) {
        if (frame_.up.dot(p) <= standing_.floorMm + standing_.toleranceMm)
          own.push_back({frame_.flat(p), {PartId{i}, p}});
      });
      if (own.empty()) continue;
      standing_.on.push_back(PartId{i});
      for (const FlatPoint& p : flatHull(std::move(own))) {
        all_.push_back(p);
        standing_.points.push_back(p.point);
      }
    }
  }

  /// It touches in one line or point. How far the centre of mass is from being over it.
  void judgeNarrow(const std::vector<FlatPoint>& hull) {
    standing_.kind = hull.size() == 2 ? StandKind::onEdge : StandKind::onPoint;
    const Vector2d centre = frame_.flat(standing_.mass.centre_W);
    Vector2d nearest = hull.front().at;
    if (hull.size() == 2) {
      const Vector2d way = hull[1].at - hull[0].at;
      const double part = (centre - nearest).dot(way) / way.squaredNorm();
      nearest += std::clamp(part, 0.0, 1.0) * way;
    }
    const Vector2d off = centre - nearest;
    standing_.marginMm = -off.norm();
    standing_.leastTipRad = std::min(0.0, std::atan2(standing_.marginMm, standing_.heightMm));
    if (off.norm() > 1e-9) standing_.falls_W = frame_.level(off.normalized());
  }

  void judgePolygon(const std::vector<FlatPoint>& hull) {
    const Vector2d centre = frame_.flat(standing_.mass.centre_W);
    const TipEdge* least = nullptr;
    for (std::size_t i = 0; i < hull.size(); ++i) {
      const FlatPoint& a = hull[i];
      const FlatPoint& b = hull[(i + 1) % hull.size()];
      const Vector2d way = (b.at - a.at).normalized();
      TipEdge edge;
      edge.from_W = a.point.point_W;
      edge.to_W = b.point.point_W;
      edge.outwards_W = frame_.level(Vector2d(way.y(), -way.x()));
      edge.distanceMm = way.x() * (centre.y() - a.at.y()) - way.y() * (centre.x() - a.at.x());
      edge.tipRad = std::atan2(edge.distanceMm, std::max(0.0, standing_.heightMm));
      standing_.edges.push_back(edge);
    }
    for (const TipEdge& edge : standing_.edges) {
      if (!least || edge.distanceMm < least->distanceMm) least = &edge;
    }
    standing_.marginMm = least->distanceMm;
    standing_.leastTipRad = least->tipRad;
    standing_.falls_W = least->outwards_W;
    standing_.kind = least->distanceMm < 0 ? StandKind::falls : StandKind::stands;
  }

  const Assembly& assembly_;
  const HungFigure& figure_;
  FloorFrame frame_;
  std::vector<FlatPoint> all_;
  FigureStand standing_;
};

}  // namespace

FigureStand figureStandOf(const Assembly& assembly, const HungFigure& figure, const Vector3d& up_W,
                          double toleranceMm) {
  return StandBuilder(assembly, figure, up_W).build(toleranceMm);
}

}  // namespace swingroom
