#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "core/mesh/features.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// The pins, holes, balls and sockets of a surface, by fits and not by a given axis: what one
/// points at, and all of them. Found once, when made (about 1 s for 100 000 triangles of a free
/// form; less for plain shapes); questions are then quick and const from any thread. Deterministic.
///
/// A region grows over edges that bend by less than 50 degrees while its corners stay on the
/// fitted cylinder or sphere and its facets face along its radius: corners lie on what was meshed,
/// facets inside it, so the radius is that of the corners (Lukacs, Martin, Marshall, Faithful
/// least-squares fitting, ECCV 1998, for the distances that are squared). Cones, tori, rounded
/// bands of balls and polygons of fewer than eight sides are none of them. Accuracy:
/// tests/core/mesh/feature_finder_test.cpp.
class FeatureFinder {
 public:
  explicit FeatureFinder(const TriangleMesh& mesh);
  ~FeatureFinder();
  FeatureFinder(FeatureFinder&&) noexcept;
  FeatureFinder& operator=(FeatureFinder&&) noexcept;

  /// In the order of their first triangle. Stretches of one cylinder apart along the axis are told
  /// apart; pieces of one stretch (a hole with a slot) are one.
  const Features& all() const;

  /// What the triangle (its index in the mesh) is part of. A cylinder may be too small a stretch to
  /// be one of `all`: from 15 degrees of a turn on, if it is exact.
  std::optional<CylinderFeature> cylinderAt(std::size_t triangle) const;
  std::optional<BallFeature> ballAt(std::size_t triangle) const;
  /// The flat stretch round the triangle, to 0.01 mm; it may be no more than the triangle itself.
  /// None if it has no area.
  std::optional<PlaneFeature> planeAt(std::size_t triangle) const;
  /// The straight edge nearest to a point on the triangle, as far as it runs straight; edges within
  /// round or flat stretches do not count. The first such question takes as long as a look at all.
  std::optional<EdgeFeature> edgeAt(std::size_t triangle, const Eigen::Vector3d& point,
                                    double withinMm) const;

  /// The triangles of the cylinder, ball or plane that the triangle is part of, in that order of
  /// preference and rising, so that a view can show it.
  std::vector<std::uint32_t> regionAt(std::size_t triangle) const;

 private:
  struct Found;
  std::unique_ptr<const Found> found_;
};

/// For one question. @throws std::out_of_range if there is no such triangle.
std::optional<CylinderFeature> cylinderAt(const TriangleMesh& mesh, std::size_t triangle);
std::optional<BallFeature> ballAt(const TriangleMesh& mesh, std::size_t triangle);
Features featuresOf(const TriangleMesh& mesh);

}  // namespace swingroom
