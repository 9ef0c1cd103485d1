#pragma once

#include <QOpenGLVertexArrayObject>

#include "app/viewport/painters/contact_shadow.h"
#include "app/viewport/painters/gl.h"

namespace swingroom {

/// Draws the contact shadow onto what is in the picture already: before the parts, so that parts
/// under the bed stay in sight. Needs the context current in every call, the destructor too.
class ShadowPainter {
 public:
  explicit ShadowPainter(Gl& gl);
  ~ShadowPainter();
  ShadowPainter(const ShadowPainter&) = delete;
  ShadowPainter& operator=(const ShadowPainter&) = delete;

  /// @param darkest  What the ground's colour is multiplied by where no sky is seen.
  void draw(const ShadowGrid& shadow, const FloorFrame& floor, const Eigen::Matrix4d& clipFromWorld,
            const Eigen::Vector3f& darkest);

 private:
  Gl& gl_;
  std::unique_ptr<QOpenGLShaderProgram> program_;
  QOpenGLVertexArrayObject layout_;
  GLuint texture_ = 0;
};

}  // namespace swingroom
