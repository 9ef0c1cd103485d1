#pragma once

#include <QOpenGLFramebufferObject>

#include "app/viewport/paint/paint_painter.h"
#include "app/viewport/painters/drawing_painter.h"
#include "app/viewport/painters/overlay.h"
#include "app/viewport/painters/part_painter.h"
#include "app/viewport/painters/section_painter.h"
#include "app/viewport/painters/shadow_painter.h"
#include "app/viewport/painters/sheet_painter.h"
#include "app/viewport/painters/stroke_painter.h"
#include "app/viewport/view_frame.h"

namespace swingroom {

/// Draws frames with OpenGL 3.3. Made, used and destroyed with its context current.
class ViewRenderer {
 public:
  /// @throws GlFailure if a shader is not taken.
  explicit ViewRenderer(Gl& gl);

  /// Into the framebuffer object `target`, the whole of it.
  void draw(const ViewFrame& frame, GLuint target);

 private:
  void clear(const ViewFrame& frame);
  void blend(bool on);
  void drawFloor(const ViewFrame& frame);
  void drawSolids(const ViewFrame& frame);
  void drawPainted(const ViewFrame& frame);
  void drawEdges(const ViewFrame& frame);
  void drawClear(const ViewFrame& frame);
  void drawAxesAndZones(const ViewFrame& frame);
  void drawDrawings(const ViewFrame& frame);
  void drawOverlap(const ViewFrame& frame);
  void drawHandles(const ViewFrame& frame);
  void drawDimension(const ViewFrame& frame);
  void drawHandle(const ViewFrame& frame);
  SurfaceStyle styleOf(const DrawnPart& part, const ViewFrame& frame) const;
  bool isSmooth(const ViewFrame& frame) const;
  QOpenGLFramebufferObject& smoothTarget(const QSize& size);

  Gl& gl_;
  PartPainter parts_;
  PaintPainter paints_;
  ShadowPainter shadow_;
  StrokePainter strokes_;
  SheetPainter sheets_;
  SectionPainter section_;
  DrawingPainter drawings_;
  KnobImage knob_;
  CardImage card_, handleCard_;
  std::optional<Eigen::Vector2d> cardOffset_;  ///< Of the card in the last picture from the gap.
  bool software_;
  std::size_t mostTriangles_;  ///< Of a picture while something moves.
  bool coarse_ = false;        ///< The picture being drawn has large meshes in fewer triangles.
  std::unique_ptr<QOpenGLFramebufferObject> smooth_;  ///< With several samples a pixel.
};

}  // namespace swingroom
