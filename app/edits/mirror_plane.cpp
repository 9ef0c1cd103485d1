#include "app/edits/mirror_plane.h"

#include <cmath>
#include <stdexcept>

namespace swingroom::edits {
namespace {

Vector3d vectorOf(const ThreeNumbers& v) {
  return Vector3d(v.data());
}

Vector3d unitOf(const ThreeNumbers& v) {
  const double length = vectorOf(v).norm();
  if (!(length > 1e-12)) throw std::invalid_argument("MirrorPlane: a normal of length 0");
  // Along an axis nothing is rounded.
  return withoutDust(length - 1) == 0 ? vectorOf(v) : Vector3d(vectorOf(v) / length);
}

/// x -> x - 2 n (n.(x - c)).
Eigen::Affine3d reflectionIn(const Vector3d& through, const Vector3d& normal) {
  Eigen::Affine3d F = Eigen::Affine3d::Identity();
  F.linear() -= 2 * normal * normal.transpose();
  F.translation() = 2 * normal.dot(through) * normal;
  return F;
}

/// What moves the mesh as it is read, scaled: mirror, then placement.
Eigen::Affine3d placed(const DocumentPart& part) {
  Eigen::Affine3d X(Eigen::Affine3d::Identity());
  if (part.placement) X = poseOfPlacement(*part.placement).matrix();
  if (!part.mirror) return X;
  return X * reflectionIn(vectorOf(part.mirror->through), unitOf(part.mirror->normal));
}

Pose rigid(const Eigen::Affine3d& X) {
  Pose pose = Pose::Identity();
  pose.linear() = X.linear();
  pose.translation() = X.translation();
  return pose;
}

}  // namespace

double withoutDust(double number, double grain) {
  // By whole numbers a tenth comes out as the double that is written so.
  const double perUnit = std::round(1 / grain);
  const double whole = std::round(number * perUnit) / perUnit;
  return std::isfinite(whole) ? whole + 0.0 : number;
}

ThreeNumbers withoutDust(const Vector3d& v, double grain) {
  return {withoutDust(v.x(), grain), withoutDust(v.y(), grain), withoutDust(v.z(), grain)};
}

MirrorPlane::MirrorPlane(const ThreeNumbers& through, const ThreeNumbers& normal)
    : through_(vectorOf(through)), normal_(unitOf(normal)) {}

MirrorPlane MirrorPlane::betweenSides(const AssemblyDocument& document) {
  const Vector3d side = vectorOf(document.up).cross(vectorOf(document.front));
  if (side.norm() < 1e-12) return MirrorPlane({0, 0, 0}, {0, 1, 0});
  return MirrorPlane({0, 0, 0}, withoutDust(side.normalized(), kDustOfDirection));
}

ThreeNumbers MirrorPlane::point(const ThreeNumbers& p) const {
  return withoutDust(reflection() * vectorOf(p));
}

ThreeNumbers MirrorPlane::direction(const ThreeNumbers& v) const {
  return withoutDust(reflection().linear() * vectorOf(v), kDustOfDirection);
}

ThreeNumbers MirrorPlane::turnAxis(const ThreeNumbers& v) const {
  return withoutDust(-(reflection().linear() * vectorOf(v)), kDustOfDirection);
}

Eigen::Affine3d MirrorPlane::reflection() const {
  return reflectionIn(through_, normal_);
}

Pose poseOfPlacement(const DocumentPlacement& placement) {
  const auto [w, x, y, z] = placement.turn;
  Pose X = Pose::Identity();
  X.linear() = Eigen::Quaterniond(w, x, y, z).normalized().toRotationMatrix();
  X.translation() = vectorOf(placement.at);
  return X;
}

std::optional<DocumentPlacement> placementOf(const Pose& X) {
  DocumentPlacement placement;
  placement.at = withoutDust(X.translation());
  Eigen::Quaterniond q(X.linear());
  q.normalize();
  if (q.w() < 0) q.coeffs() *= -1;
  const ThreeNumbers axis = withoutDust(q.vec(), kDustOfDirection);
  placement.turn = {withoutDust(q.w(), kDustOfDirection), axis[0], axis[1], axis[2]};
  if (placement == DocumentPlacement()) return std::nullopt;
  return placement;
}

std::optional<DocumentMirror> meshPlane(const DocumentPart& part, const MirrorPlane& plane) {
  if (part.mirror) return std::nullopt;
  DocumentMirror mirror;
  if (!part.placement) {
    mirror.through = withoutDust(plane.through());
    mirror.normal = withoutDust(plane.normal(), kDustOfDirection);
    return mirror;
  }
  const Pose X = poseOfPlacement(*part.placement);
  mirror.normal = withoutDust(X.linear().transpose() * plane.normal(), kDustOfDirection);
  return mirror;
}

DocumentPart mirroredPart(const DocumentPart& part, const MirrorPlane& plane, bool isOwnImage) {
  DocumentPart image = part;
  image.mirror = meshPlane(part, plane);
  Eigen::Affine3d X = plane.reflection() * placed(part);
  if (image.mirror) {
    X = X * reflectionIn(vectorOf(image.mirror->through), unitOf(image.mirror->normal));
    if (part.placement && isOwnImage) image.mirror.reset();
  }
  image.placement = placementOf(rigid(X));
  // The turn is the part's own: as it is written.
  if (image.placement && part.placement && !part.mirror)
    image.placement->turn = part.placement->turn;
  return image;
}

Pose mirroredMove(const Pose& D, const MirrorPlane& plane) {
  const Eigen::Affine3d F = plane.reflection();
  return rigid(F * Eigen::Affine3d(D.matrix()) * F);
}

}  // namespace swingroom::edits
