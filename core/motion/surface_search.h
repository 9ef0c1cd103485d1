#pragma once

#include <limits>
#include <memory>
#include <optional>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// A surface made ready for nearness questions. For suggestions only: answers are as exact as they
/// say, but nothing is proven with them. Const from any thread.
class SurfaceSearch {
 public:
  explicit SurfaceSearch(const TriangleMesh& mesh);
  ~SurfaceSearch();
  SurfaceSearch(SurfaceSearch&&) noexcept;
  SurfaceSearch& operator=(SurfaceSearch&&) noexcept;

  const Eigen::AlignedBox3d& bounds() const { return bounds_; }

  /// Nearest point of the surface to `p`; none if it is not nearer than `withinMm`.
  std::optional<Vector3d> nearestTo(
      const Vector3d& p, double withinMm = std::numeric_limits<double>::infinity()) const;

  /// Whether the surfaces come nearer to each other than `withinMm` anywhere.
  bool isNear(const SurfaceSearch& other, double withinMm) const;

  /// Least distance of two surfaces, at most 0.02 mm too great, never too small; none if they are
  /// `withinMm` or more apart. 0 if they touch or cross; one wholly inside the other does not
  /// count.
  std::optional<double> gapTo(const SurfaceSearch& other, double withinMm) const;

  /// How near to a line (along unit `along`) two surfaces meet: the least distance from it of a
  /// place where they are nearer than `withinMm` to each other, as far as whole triangles tell.
  /// None if they nowhere are.
  std::optional<double> meetingFromLine(const SurfaceSearch& other, double withinMm,
                                        const Vector3d& through, const Vector3d& along) const;

 private:
  struct Tree;
  std::unique_ptr<const Tree> tree_;
  Eigen::AlignedBox3d bounds_;
};

}  // namespace swingroom
