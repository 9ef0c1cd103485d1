#pragma once

#include <memory>

#include "core/picture/surface.h"

namespace swingroom {

/// How much of the sky a point sees past the solid shapes. Const from any thread once made.
class Occlusion {
 public:
  /// Shapes that are seen through hide nothing. Things farther than `reachMm` from a point do not
  /// darken it.
  Occlusion(const SeenSurface& surface, const std::vector<PictureShape>& shapes, const Camera& camera,
            double reachMm);
  ~Occlusion();
  Occlusion(const Occlusion&) = delete;
  Occlusion& operator=(const Occlusion&) = delete;

  /// 0 shut in to 1 open, by a few rays round `normal_W`, which must be of unit length. The
  /// directions depend on the pixel's place in a square of 4 x 4; the mean over such a square is a
  /// fine estimate.
  float openness(const Vector3d& p_W, const Eigen::Vector3f& normal_W, int x, int y) const;

 private:
  struct Rays;
  std::unique_ptr<Rays> rays_;
};

}  // namespace swingroom
