#pragma once

#include <optional>
#include <vector>

#include "app/viewport/view_camera.h"
#include "app/viewport/view_handle.h"

/// Where handles are in the picture, and what a drag of one means. Pixels are the projection's.
namespace swingroom {

/// Sizes of handles in pixels of the layout; `ratio` pixels of the projection each.
constexpr double kRingPixels = 54, kKnobPixels = 6.5;

double ringRadiusMm(const ViewHandle& handle, const ViewProjection& view, double ratio);
/// The point of the handle's track at a value.
Vector3d trackPoint(const ViewHandle& handle, const ViewProjection& view, double value,
                    double ratio);
/// The track between two values.
std::vector<Vector3d> trackOf(const ViewHandle& handle, const ViewProjection& view, double from,
                              double to, double ratio);
/// Where it is held.
Vector3d knobOf(const ViewHandle& handle, const ViewProjection& view, double ratio);

/// The handle under a pixel: knobs before rings, the nearest of each.
std::optional<std::size_t> handleAt(const std::vector<ViewHandle>& handles,
                                    const ViewProjection& view, const Eigen::Vector2d& pixel);

/// Place along the axis that is nearest to what a pixel sees, mm; none if the axis is seen end-on.
std::optional<double> placeAlong(const ViewHandle& handle, const ViewRay& ray);
/// Angle about the axis, from `zero_W`, of the point of the handle's plane that a pixel sees, -pi
/// to pi; none if the plane is seen edge-on, or not at all.
std::optional<double> angleAbout(const ViewHandle& handle, const ViewRay& ray);
/// How near a pixel's ray passes by the axis, mm.
double distanceFromAxis(const ViewHandle& handle, const ViewRay& ray);

/// A drag of one handle. Steps add up, so that a ring can be turned round more than once and a stop
/// that was run into is left where it was met.
class HandleDrag {
 public:
  HandleDrag(const ViewHandle& taken, const ViewProjection& view, const Eigen::Vector2d& pixel);

  /// @param fine  A tenth of the way.
  /// @returns The value that the mouse asks for, not kept in any range.
  double moveTo(const Eigen::Vector2d& pixel, const ViewProjection& view, bool fine);
  double value() const { return value_; }

 private:
  double step(const Eigen::Vector2d& pixel, const ViewProjection& view) const;
  double alongTangent(const Eigen::Vector2d& pixel, const ViewProjection& view) const;

  ViewHandle handle_;
  double value_;
  Eigen::Vector2d last_;
  bool flat_ = false;  ///< The ring's plane, or the axis end-on: moved along a line in the picture.
  Vector3d held_W_;    ///< Where it was taken, for that.
  Vector3d tangent_W_;
};

}  // namespace swingroom
