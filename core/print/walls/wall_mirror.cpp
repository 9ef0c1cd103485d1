#include "core/print/walls/wall_mirror.h"

#include <Eigen/Geometry>
#include <algorithm>

namespace swingroom {

std::optional<Eigen::Affine3d> reflectionBetween(const TriangleMesh& mesh,
                                                 const TriangleMesh& other) {
  if (mesh.vertices.size() != other.vertices.size()) return std::nullopt;
  if (mesh.triangles.size() != other.triangles.size()) return std::nullopt;
  const auto isTurned = [](const Triangle& a, const Triangle& b) {
    return a[0] == b[0] && a[1] == b[2] && a[2] == b[1];
  };
  if (!std::equal(mesh.triangles.begin(), mesh.triangles.end(), other.triangles.begin(), isTurned))
    return std::nullopt;
  // The plane lies midway between the two vertices that are farthest apart.
  double squared = 0;
  std::size_t farthest = 0;
  for (std::size_t i = 0; i < mesh.vertices.size(); ++i) {
    const double apart = (mesh.vertices[i] - other.vertices[i]).squaredNorm();
    if (apart <= squared) continue;
    squared = apart;
    farthest = i;
  }
  if (!(squared > 0)) return std::nullopt;
  const Vector3d normal = (mesh.vertices[farthest] - other.vertices[farthest]).normalized();
  const Vector3d through = (mesh.vertices[farthest] + other.vertices[farthest]) / 2;
  Eigen::Affine3d X = Eigen::Affine3d::Identity();
  X.linear() -= 2 * normal * normal.transpose();
  X.translation() = 2 * normal.dot(through) * normal;
  const double most = 1e-9 * boundsOf(mesh).diagonal().norm();
  for (std::size_t i = 0; i < mesh.vertices.size(); ++i) {
    if ((X * other.vertices[i] - mesh.vertices[i]).norm() > most) return std::nullopt;
  }
  return X;
}

WallMap reflected(const WallMap& map, const Eigen::Affine3d& X) {
  WallMap turned = map;
  for (WallPlace& place : turned.places) {
    for (Vector3d& corner : place.corners_P) corner = X * corner;
    std::swap(place.corners_P[1], place.corners_P[2]);
    place.at_P = X * place.at_P;
    place.other_P = X * place.other_P;
  }
  for (ThinSpot& spot : turned.spots) spot.at_P = X * spot.at_P;
  for (BladeEdge& edge : turned.blades) edge.at_P = X * edge.at_P;
  for (PinFigure& pin : turned.pins) {
    pin.middle_P = X * pin.middle_P;
    pin.along_P = X.linear() * pin.along_P;
  }
  return turned;
}

}  // namespace swingroom
