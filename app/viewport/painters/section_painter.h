#pragma once

#include <QOpenGLBuffer>
#include <QOpenGLVertexArrayObject>

#include "app/viewport/painters/gl.h"
#include "app/viewport/painters/part_painter.h"
#include "app/viewport/view_frame.h"

namespace swingroom {

/// Fills the cut faces of a section: each part's in its colour, hatched as in a technical drawing
/// (ISO 128-3, from memory: thin lines at 45 degrees, neighbours told apart by direction or
/// spacing), and in the colour of a clash where two parts fill the same room. Needs a stencil of 8
/// bits, cleared, and the context current in every call, the destructor too.
class SectionPainter {
 public:
  explicit SectionPainter(Gl& gl);

  /// With the depth test on.
  void draw(const ViewFrame& frame);

 private:
  void drawPart(const DrawnPart& part, const ViewFrame& frame);
  void fan(const SectionCut& cut, const ViewFrame& frame);
  void bindFace(const ViewFrame& frame, const Eigen::AlignedBox2d& extent);
  void drawFace();
  void drawOverlaps(const ViewFrame& frame, const Eigen::AlignedBox2d& extent);

  Gl& gl_;
  std::unique_ptr<QOpenGLShaderProgram> fan_, face_, overlap_;
  QOpenGLVertexArrayObject layout_, empty_;
  QOpenGLBuffer corners_{QOpenGLBuffer::VertexBuffer};
};

/// Lines of the hatching for millimetres in the plane: a line at each whole value of the product.
Eigen::Vector2d hatchOf(int hatching, double spacingMm);
/// Some 9 to 13 pixels, in steps, so that the lines stay where they are while the eye moves a
/// little.
double hatchSpacingMm(double mmPerPixel);

}  // namespace swingroom
