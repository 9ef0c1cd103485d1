#pragma once

#include "core/picture/colour.h"
#include "core/picture/raster.h"

namespace swingroom {

/// Matt plastic under an even sky and one lamp over the eye's left shoulder.
class Shading {
 public:
  explicit Shading(const Camera& camera);

  /// What `shape` looks like; pale ones lose most of their colour and come near to the ground. The
  /// normal is of unit length, `openness` as of Occlusion.
  Paint seen(const PictureShape& shape, const Eigen::Vector3f& normal_W, float openness) const;

  /// The normal at a covered sample, on the eye's side.
  Eigen::Vector3f normalAt(const DrawnTriangle& triangle, double x, double y) const;
  /// Of the triangle's plane, on the eye's side.
  Eigen::Vector3f flatNormal(const DrawnTriangle& triangle) const;
  /// 0 seen on edge to 1 seen square on.
  float facing(const Eigen::Vector3f& normal_W) const { return std::abs(normal_W.dot(towards_W_)); }

 private:
  Paint matt(const Paint& colour, const Eigen::Vector3f& normal_W, float openness) const;

  Eigen::Vector3f towards_W_, up_W_, lamp_W_;
};

}  // namespace swingroom
