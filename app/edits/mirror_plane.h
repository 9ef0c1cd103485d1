#pragma once

#include <Eigen/Geometry>
#include <optional>

#include "core/base/transform.h"
#include "core/files/document/assembly_document.h"

namespace swingroom::edits {

/// A plane of the assembly frame, and what reflecting in it makes of things.
class MirrorPlane {
 public:
  /// @param normal  Of any length but 0.
  MirrorPlane(const ThreeNumbers& through, const ThreeNumbers& normal);
  /// Through the origin, between left and right as the assembly is looked at from its front.
  static MirrorPlane betweenSides(const AssemblyDocument& document);

  const Vector3d& through() const { return through_; }
  const Vector3d& normal() const { return normal_; }  ///< Unit.
  /// How far before the plane a point is, mm.
  double height(const Vector3d& p) const { return normal_.dot(p - through_); }

  ThreeNumbers point(const ThreeNumbers& p) const;
  /// Of a slide, or of anything that points.
  ThreeNumbers direction(const ThreeNumbers& v) const;
  /// An axis or rotation vector: turning by the same angle about it is the mirrored turn.
  ThreeNumbers turnAxis(const ThreeNumbers& v) const;
  Eigen::Affine3d reflection() const;

 private:
  Vector3d through_;
  Vector3d normal_;
};

/// Without the last digits, which come of the working out: a thousand billionth of a mm or degree,
/// and what a double is off in a direction.
double withoutDust(double number, double grain = 1e-12);
ThreeNumbers withoutDust(const Vector3d& v, double grain = 1e-12);
constexpr double kDustOfDirection = 1e-15;

/// The part's mesh, mirrored and placed so that it stands as the reflection of the part.
/// @param isOwnImage  The mesh is its own image in the plane through its origin that is parallel to
///   this one as the part stands: then it needs no mirror.
/// @returns What of the part changes: mirror and placement.
DocumentPart mirroredPart(const DocumentPart& part, const MirrorPlane& plane, bool isOwnImage);

/// The plane, as `DocumentMirror` has it, in which the mesh of `mirroredPart` is mirrored; none: in
/// no plane, because the part is a mirrored one itself.
std::optional<DocumentMirror> meshPlane(const DocumentPart& part, const MirrorPlane& plane);

/// The pose of a placement whose turn is not zero.
Pose poseOfPlacement(const DocumentPlacement& placement);
/// The other way round; none: where the mesh stands by itself.
std::optional<DocumentPlacement> placementOf(const Pose& X);

/// How a displacement D of a part is mirrored: F D F.
Pose mirroredMove(const Pose& D, const MirrorPlane& plane);

}  // namespace swingroom::edits
