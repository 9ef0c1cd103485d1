#include "core/report/view_choice.h"

#include <cmath>

namespace swingroom {
namespace {

/// Moller and Trumbore, Journal of Graphics Tools 2 (1997): how far along the ray from `origin`;
/// none: missed.
bool hits(const Vector3d& origin, const Vector3d& direction, const TriangleMesh& mesh,
          std::size_t triangle) {
  const Vector3d& corner = mesh.corner(triangle, 0);
  const Vector3d edge1 = mesh.corner(triangle, 1) - corner;
  const Vector3d edge2 = mesh.corner(triangle, 2) - corner;
  const Vector3d across = direction.cross(edge2);
  const double determinant = edge1.dot(across);
  if (std::abs(determinant) < 1e-12) return false;
  const Vector3d from = origin - corner;
  const double u = from.dot(across) / determinant;
  if (u < 0 || u > 1) return false;
  const Vector3d other = from.cross(edge1);
  const double v = direction.dot(other) / determinant;
  if (v < 0 || u + v > 1) return false;
  return edge2.dot(other) / determinant > 1e-3;
}

/// Whether any of the shape's surface stands between `p_W` and an eye far off against `towards`.
bool hides(const PictureShape& shape, const Vector3d& p_W, const Vector3d& towards) {
  const Pose X_PW = shape.X_WP.inverse();
  const Vector3d origin = X_PW * p_W;
  const Vector3d direction = X_PW.linear() * -towards;
  const auto bounds = boundsOf(*shape.mesh);
  const double radius = 0.5 * bounds.diagonal().norm();
  const Vector3d toCentre = bounds.center() - origin;
  const double along = toCentre.dot(direction);
  if (along < -radius || (toCentre - along * direction).squaredNorm() > radius * radius)
    return false;
  for (std::size_t t = 0; t < shape.mesh->triangles.size(); ++t) {
    if (hits(origin, direction, *shape.mesh, t)) return true;
  }
  return false;
}

}  // namespace

std::vector<Vector3d> viewDirections(const Vector3d& up, const Vector3d& front) {
  const Vector3d ahead = (front - front.dot(up) * up).normalized();
  const Vector3d right = up.cross(ahead);
  std::vector<Vector3d> directions;
  for (const double height : {0.55, 1.4, -0.45}) {
    for (const auto& [forward, side] : {std::pair{1.0, 0.75},
                                        {1.0, -0.75},
                                        {0.2, 1.0},
                                        {0.2, -1.0},
                                        {-1.0, 0.75},
                                        {-1.0, -0.75}}) {
      directions.push_back(-(forward * ahead + side * right + height * up).normalized());
    }
  }
  return directions;
}

Vector3d clearestView(const std::vector<PictureShape>& shapes,
                      const std::array<std::size_t, 2>& chosen,
                      const std::array<Vector3d, 2>& points_W,
                      const std::vector<Vector3d>& directions) {
  const auto hidden = [&](std::size_t shape, const Vector3d& place_W, const Vector3d& towards) {
    return hides(shapes[shape], place_W, towards);
  };
  return clearestView(shapes.size(), hidden, chosen, points_W, directions);
}

Vector3d clearestView(std::size_t shapes, const HidesPlace& hides,
                      const std::array<std::size_t, 2>& chosen,
                      const std::array<Vector3d, 2>& points_W,
                      const std::vector<Vector3d>& directions) {
  constexpr double kOwn =
      0.4;  // What is drawn over everything is still understood behind its own parts.
  constexpr double kEndOn = 1.2;
  constexpr double kUnusual = 0.02;  // Of equals the usual view.
  const Vector3d place = 0.5 * (points_W[0] + points_W[1]);
  const Vector3d apart = (points_W[1] - points_W[0]).stableNormalized();
  std::size_t best = 0;
  double least = 0;
  for (std::size_t d = 0; d < directions.size(); ++d) {
    double cost =
        kEndOn * std::pow(apart.dot(directions[d]), 2) + kUnusual * static_cast<double>(d);
    for (std::size_t s = 0; s < shapes; ++s) {
      const bool own = s == chosen[0] || s == chosen[1];
      if (hides(s, place, directions[d])) cost += own ? kOwn : 1;
    }
    if (d > 0 && cost >= least) continue;
    best = d;
    least = cost;
  }
  return directions[best];
}

}  // namespace swingroom
