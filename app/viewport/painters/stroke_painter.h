#pragma once

#include <QOpenGLBuffer>
#include <QOpenGLVertexArrayObject>

#include "app/viewport/painters/gl.h"
#include "app/viewport/painters/strokes.h"

namespace swingroom {

/// Draws lines that were collected. Needs the context current in every call, the destructor too.
class StrokePainter {
 public:
  explicit StrokePainter(Gl& gl);

  /// `opacity` of all, on top of each line's own. Depth test as set by the caller.
  void draw(const StrokeBatch& batch, float opacity = 1);

 private:
  void reserveIndices(std::size_t lines);

  Gl& gl_;
  std::unique_ptr<QOpenGLShaderProgram> program_;
  QOpenGLVertexArrayObject layout_;
  QOpenGLBuffer vertices_{QOpenGLBuffer::VertexBuffer}, indices_{QOpenGLBuffer::IndexBuffer};
  std::size_t indexedLines_ = 0;
};

}  // namespace swingroom
