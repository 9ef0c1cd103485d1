#pragma once

#include <QOpenGLVertexArrayObject>

#include "app/viewport/contact_shadow.h"
#include "app/viewport/gl.h"

namespace swingroom {

/// How the floor looks. Colours as displayed, 0 to 1.
struct FloorStyle {
  Eigen::Vector3f ground, line, shadow;  ///< `shadow`: the ground where no sky is seen.
};

/// Draws the print bed behind everything: squares of 10 mm, a heavier line each 50 mm, fading out, with
/// the contact shadow. From below nothing. Parts under the bed stay in sight.
class FloorPainter {
 public:
  explicit FloorPainter(Gl& gl);
  ~FloorPainter();
  FloorPainter(const FloorPainter&) = delete;
  FloorPainter& operator=(const FloorPainter&) = delete;

  void setShadow(const ShadowGrid& shadow);
  void draw(const ViewProjection& projection, const FloorFrame& floor, const ViewBounds& bounds,
            const FloorStyle& style);

 private:
  void setRays(const ViewProjection& projection, const FloorFrame& floor, const Eigen::Vector2d& origin);

  Gl& gl_;
  std::unique_ptr<QOpenGLShaderProgram> program_;
  QOpenGLVertexArrayObject layout_;
  GLuint texture_ = 0;
  Eigen::Vector2d shadowCorner_ = Eigen::Vector2d::Zero();
  double shadowSideMm_ = 0;
};

}  // namespace swingroom
