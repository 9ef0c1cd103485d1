#pragma once

#include <Eigen/Geometry>

#include "core/base/transform.h"

namespace swingroom {

/// Size of the picture, pixels of whatever kind its user counts in.
struct ViewSize {
  double width = 1, height = 1;

  double smaller() const { return width < height ? width : height; }
  bool operator==(const ViewSize&) const = default;
};

/// Where the eye is. Always upright: it turns about `up` and nods, it never rolls. Angles in rad,
/// mm, world.
struct ViewCamera {
  Vector3d up_W = Vector3d::UnitZ(), front_W = Vector3d::UnitX();  ///< Unit, square to each other.
  Vector3d p_WTarget = Vector3d::Zero();                           ///< Is seen in the middle.
  double yawRad = 0;    ///< 0: the eye is in front; a quarter turn: at the assembly's right.
  double pitchRad = 0;  ///< Up to a quarter turn: the eye is straight above.
  double spanMm = 100;  ///< What the picture's smaller side shows at the target.
  bool perspective = true;

  Vector3d sideways_W() const { return front_W.cross(up_W); }  ///< The assembly's right.
  Vector3d right_W() const;                                    ///< The picture's right.
  Vector3d upward_W() const;                                   ///< The picture's up.
  Vector3d towards_W() const;                                  ///< The way the eye looks.
  /// Of the eye from the target; the same in parallel view, where only the order of depths needs
  /// it.
  double distanceMm() const;
  Vector3d eye_W() const { return p_WTarget - distanceMm() * towards_W(); }

  bool operator==(const ViewCamera&) const = default;
};

/// Angle that the smaller side spans in perspective.
constexpr double kViewAngleRad = radFromDeg(20);

/// Frame of `up` and `front` made square; any sensible front if the two are along each other.
ViewCamera uprightCamera(const Vector3d& up, const Vector3d& front);

/// A ray through a pixel. In parallel view it comes from infinitely far: distances may be negative.
struct ViewRay {
  Vector3d origin_W, direction_W;
};

/// Least and greatest depth that is drawn, mm.
struct DepthRange {
  double nearMm = 1, farMm = 1000;
};

/// A camera together with a picture's size: where points are seen. Pixels from the left and from
/// the top.
class ViewProjection {
 public:
  ViewProjection(const ViewCamera& camera, const ViewSize& size);

  const ViewCamera& camera() const { return camera_; }
  const ViewSize& size() const { return size_; }
  /// mm to the right, upwards and along the view from the eye.
  Vector3d inView(const Vector3d& p_W) const { return X_VW_ * p_W; }
  double depthMm(const Vector3d& p_W) const { return inView(p_W).z(); }
  /// Of a point before the eye; in perspective, of one behind it, nonsense: ask `isBefore`.
  Eigen::Vector2d pixel(const Vector3d& p_W) const { return pixelOf(inView(p_W)); }
  Eigen::Vector2d pixelOf(const Vector3d& p_V) const;
  bool isBefore(const Vector3d& p_W) const { return !camera_.perspective || depthMm(p_W) > 0; }
  /// What a pixel spans at that depth.
  double mmPerPixel(double depthMm) const;
  ViewRay rayAt(const Eigen::Vector2d& pixel) const;
  /// The point seen at a pixel in the plane of that depth, square to the view.
  Vector3d pointAt(const Eigen::Vector2d& pixel, double depthMm) const;
  /// Depths that hold a ball.
  DepthRange rangeOf(const Vector3d& centre_W, double radiusMm) const;
  /// From the world to OpenGL's clip coordinates.
  Eigen::Matrix4d clipFromWorld(const DepthRange& range) const {
    return clipFromView(range) * X_VW_.matrix();
  }
  Eigen::Matrix4d clipFromView(const DepthRange& range) const;
  const Eigen::Affine3d& viewFromWorld() const { return X_VW_; }

 private:
  ViewCamera camera_;
  ViewSize size_;
  Eigen::Affine3d X_VW_;  ///< Left-handed: x right, y up, z along the view.
};

}  // namespace swingroom
