#pragma once

#include <QColor>
#include <cstdint>
#include <vector>

#include "app/viewport/view_camera.h"

namespace swingroom {

/// How a line looks. Pixels.
struct StrokeStyle {
  QColor colour;  ///< With its opacity.
  double widthPixels = 1;
  double liftPixels =
      0;  ///< Drawn as if this much nearer to the eye, so that it shows on its own surface.
};

/// Lines as smooth-edged rectangles in the picture's plane: cheap, of any width, and smooth without
/// multisampling. Collected here, drawn by `StrokePainter`.
class StrokeBatch {
 public:
  /// As the vertex shader reads it.
  struct Vertex {
    float x, y, z;  ///< OpenGL's normalised device coordinates.
    float across;   ///< Pixels from the line's middle.
    float half;     ///< Half its width, pixels.
    std::uint8_t red, green, blue, opacity;
  };

  StrokeBatch(const ViewProjection& projection, const DepthRange& range);

  const ViewProjection& projection() const { return projection_; }
  /// A line in the world; what lies behind the eye is cut away. Opacities at the ends, on top of
  /// the style's.
  void line(const Vector3d& a_W, const Vector3d& b_W, const StrokeStyle& style, float opacityA = 1,
            float opacityB = 1);
  /// The same, in the view's own frame (see ViewProjection::inView).
  void lineInView(Eigen::Vector3f a_V, Eigen::Vector3f b_V, const StrokeStyle& style,
                  float opacityA = 1, float opacityB = 1);
  void path(const std::vector<Vector3d>& points_W, const StrokeStyle& style);
  /// On top of everything, in pixels.
  void flatLine(const Eigen::Vector2d& a, const Eigen::Vector2d& b, const StrokeStyle& style);
  void flatCircle(const Eigen::Vector2d& middle, double radiusPixels, const StrokeStyle& style);

  /// Four a line, in the order of a triangle strip.
  const std::vector<Vertex>& vertices() const { return vertices_; }

 private:
  struct End {
    float x, y, z;  ///< Pixels, and depth in device coordinates.
    float opacity = 1;
  };
  End endOf(const Eigen::Vector3f& p_V, double liftPixels, float opacity) const;
  void add(const End& a, const End& b, const StrokeStyle& style);

  ViewProjection projection_;
  float nearMm_, depthScale_, depthShift_;
  float width_, height_, mmPerPixelAt1_;
  bool perspective_;
  std::vector<Vertex> vertices_;
};

}  // namespace swingroom
