#include "app/viewport/tools/measure_snap.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "core/tree/point_query.h"

namespace swingroom {
namespace {

using Eigen::Vector2d;

constexpr double kSnapPixels = 9;
constexpr double kFlatRad = 1e-3;  ///< Faces that are parallel this closely have no angle.

struct MeasureText {
  Q_DECLARE_TR_FUNCTIONS(MeasureText)
};

/// One part, searched for what is near a pixel.
class PartSnap {
 public:
  PartSnap(const ViewStage& stage, const ViewProjection& view, const Vector2d& pixel,
           const ViewPick& hit)
      : view_(view),
        pixel_(pixel),
        hit_(hit),
        part_(stage.scene().parts[hit.part.index]),
        X_WP_(stage.pose(hit.part.index)),
        mesh_(stage.mesh(hit.part.index).get()) {}

  SnapPoint run() {
    if (mesh_) search();
    if (corner_) return {SnapPoint::Kind::corner, hit_.part, exactly(*corner_), {}};
    if (edge_) return {SnapPoint::Kind::edge, hit_.part, onEdge(*edge_), {}};
    SnapPoint face{SnapPoint::Kind::face, hit_.part, hit_.p_W, {}};
    const auto nearest = closestPoint(part_.surface->tree, X_WP_.inverse() * hit_.p_W);
    if (!nearest) return face;
    const TriangleCorners& t = part_.surface->tree.triangles()[nearest->triangle];
    const Vector3d normal = (t[1] - t[0]).cross(t[2] - t[0]);
    if (normal.norm() > 0) face.normal_W = X_WP_.linear() * normal.normalized();
    face.p_W = X_WP_ * nearest->point;
    return face;
  }

 private:
  Vector3d placed(std::uint32_t corner) const {
    return X_WP_ * (mesh_->middle + mesh_->corners[corner].cast<double>());
  }
  /// Near enough to what is seen to be no corner behind it.
  bool isHere(const Vector3d& p_W) const {
    const double mmAPixel = view_.mmPerPixel(view_.depthMm(hit_.p_W));
    return view_.isBefore(p_W) && (p_W - hit_.p_W).norm() <= 3 * kSnapPixels * mmAPixel;
  }

  void search() {
    double nearestCorner = kSnapPixels, nearestEdge = kSnapPixels;
    for (const ViewMesh::Edge& edge : mesh_->edges) {
      if (!edge.feature) continue;
      const Vector3d a = placed(edge.a), b = placed(edge.b);
      if (!view_.isBefore(a) || !view_.isBefore(b)) continue;
      for (const auto& [corner, p_W] : {std::pair(edge.a, a), std::pair(edge.b, b)}) {
        const double off = (view_.pixel(p_W) - pixel_).norm();
        if (off < nearestCorner && isHere(p_W)) nearestCorner = off, corner_ = corner;
      }
      const Vector3d foot = nearestTo(a, b);
      const double off = (view_.pixel(foot) - pixel_).norm();
      if (off < nearestEdge && isHere(foot)) nearestEdge = off, edge_ = std::pair(edge.a, edge.b);
    }
  }

  /// The segment's point that is nearest to the pixel's ray.
  Vector3d nearestTo(const Vector3d& a, const Vector3d& b) const {
    const ViewRay ray = view_.rayAt(pixel_);
    const Vector3d along = b - a, from = a - ray.origin_W;
    const Vector3d u = along - along.dot(ray.direction_W) * ray.direction_W;
    const Vector3d w = from - from.dot(ray.direction_W) * ray.direction_W;
    const double square = u.squaredNorm();
    return a + (square > 0 ? std::clamp(-w.dot(u) / square, 0.0, 1.0) : 0) * along;
  }

  /// The mesh's own corner: what is drawn is in single precision.
  Vector3d exactly(std::uint32_t corner) const {
    const Vector3d drawn = mesh_->middle + mesh_->corners[corner].cast<double>();
    const auto& vertices = part_.surface->mesh->vertices;
    const auto nearest =
        std::min_element(vertices.begin(), vertices.end(), [&](const auto& x, const auto& y) {
          return (x - drawn).squaredNorm() < (y - drawn).squaredNorm();
        });
    return X_WP_ * *nearest;
  }
  Vector3d onEdge(const std::pair<std::uint32_t, std::uint32_t>& edge) const {
    return nearestTo(exactly(edge.first), exactly(edge.second));
  }

  const ViewProjection& view_;
  Vector2d pixel_;
  ViewPick hit_;
  const ViewPart& part_;
  Pose X_WP_;
  const ViewMesh* mesh_;
  std::optional<std::uint32_t> corner_;
  std::optional<std::pair<std::uint32_t, std::uint32_t>> edge_;
};

bool areParallel(double angleRad) {
  return angleRad < kFlatRad || kPi - angleRad < kFlatRad;
}

}  // namespace

std::optional<SnapPoint> snapAt(const ViewStage& stage, const ViewProjection& view,
                                const Vector2d& pixel) {
  const auto hit = stage.pick(view.rayAt(pixel), !view.camera().perspective);
  if (!hit) return std::nullopt;
  return PartSnap(stage, view, pixel, *hit).run();
}

Measured measured(const SnapPoint& from, const SnapPoint& to, const Vector3d& up,
                  const Vector3d& front) {
  const Vector3d way = to.p_W - from.p_W;
  Measured found;
  found.distanceMm = way.norm();
  found.sidewaysMm = std::abs(way.dot(front.cross(up)));
  found.frontMm = std::abs(way.dot(front));
  found.upMm = std::abs(way.dot(up));
  if (!from.normal_W || !to.normal_W) return found;
  const double sine = from.normal_W->cross(*to.normal_W).norm();
  found.angleRad = std::atan2(sine, from.normal_W->dot(*to.normal_W));
  if (areParallel(*found.angleRad)) found.facesMm = std::abs(way.dot(*from.normal_W));
  return found;
}

QString measuredText(const Measured& measured) {
  const auto figure = [](double mm) { return QString::number(mm, 'f', 2); };
  QString text = MeasureText::tr("%1 mm (sideways %2, front %3, up %4)")
                     .arg(figure(measured.distanceMm), figure(measured.sidewaysMm),
                          figure(measured.frontMm), figure(measured.upMm));
  if (!measured.angleRad) return text;
  const double angle = *measured.angleRad;
  if (measured.facesMm) {
    return text + MeasureText::tr(", faces parallel, %1 apart").arg(figure(*measured.facesMm));
  }
  return text + MeasureText::tr(", faces turned %1°").arg(degFromRad(angle), 0, 'f', 1);
}

}  // namespace swingroom
