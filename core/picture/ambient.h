#pragma once

#include "core/picture/floor.h"
#include "core/picture/occlusion.h"
#include "core/picture/raster.h"
#include "core/picture/shading.h"

namespace swingroom {

/// What the picture is made from, fixed before painting; const from any thread.
struct Stage {
  const PictureRequest& request;
  const Camera camera;
  const SeenSurface surface;
  const Floor floor;
  const Shading shading;
  const Occlusion occlusion;

  explicit Stage(const PictureRequest& pictureRequest);
};

/// Openness once a pixel, evened out over squares of 4 x 4 pixels of one surface, and read by the
/// finer samples: rays are dear, and openness changes slowly.
class Ambient {
 public:
  /// Triangle number that stands for the floor.
  static constexpr std::uint32_t kFloor = 0xFFFFFFFE;

  explicit Ambient(const Stage& stage);

  /// Openness of the surface `triangle` (or kFloor) seen at (x, y) pixels and `depth`.
  float opennessAt(double x, double y, std::uint32_t triangle, double depth) const;
  /// Whether a shape, not floor or ground, is seen in the middle of the pixel.
  bool isShape(int x, int y) const { return triangles_[index(x, y)] < kFloor; }

 private:
  std::size_t index(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) +
           static_cast<std::size_t>(x);
  }
  void look(int firstRow, int endRow);
  float evened(int x, int y) const;
  bool sameSurface(double dx, double dy, std::uint32_t a, double aDepth, std::uint32_t b,
                   double bDepth) const;
  float trace(double x, double y, std::uint32_t triangle, double depth) const;

  const Stage& stage_;
  int width_, height_;
  std::vector<std::uint32_t> triangles_;
  std::vector<float> depths_;
  std::vector<float> rough_, even_;
};

}  // namespace swingroom
