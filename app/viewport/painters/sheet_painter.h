#pragma once

#include <QColor>
#include <QImage>
#include <QOpenGLVertexArrayObject>

#include "app/viewport/painters/gl.h"
#include "app/viewport/painters/overlap_mask.h"

namespace swingroom {

/// Lays flat things over the finished picture: hatching, cards. Needs the context current in every
/// call, the destructor too.
class SheetPainter {
 public:
  explicit SheetPainter(Gl& gl);
  ~SheetPainter();
  SheetPainter(const SheetPainter&) = delete;
  SheetPainter& operator=(const SheetPainter&) = delete;

  /// Diagonal strokes and an outline in `ink` on a veil of `paper`, with a rim of it outside.
  void drawHatch(const OverlapMask& mask, const ViewSize& size, const QColor& ink,
                 const QColor& paper, double pixelRatio);
  /// @param topLeft  Whole pixels, so that words stay sharp.
  void drawImage(const QImage& image, const QPoint& topLeft, const ViewSize& size);

 private:
  /// The whole size of what is laid down, in pixels of a picture of `size`.
  void place(QOpenGLShaderProgram& program, const QRectF& rectangle, const ViewSize& size);

  Gl& gl_;
  std::unique_ptr<QOpenGLShaderProgram> hatch_, image_;
  QOpenGLVertexArrayObject layout_;
  GLuint texture_ = 0;
};

}  // namespace swingroom
