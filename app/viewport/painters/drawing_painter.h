#pragma once

#include <QOpenGLVertexArrayObject>
#include <map>

#include "app/viewport/painters/gl.h"
#include "app/viewport/painters/strokes.h"
#include "app/viewport/view_frame.h"

namespace swingroom {

/// Whether the eye looks along the drawing's side, so that it lies over the parts as on paper.
bool isFaced(const ViewDrawing& drawing, const ViewCamera& camera);

/// The corners of the drawing as it is shown: upper left, upper right, lower left, lower right.
/// Faced it lies at the depth of the scene's middle, else behind the scene.
std::array<Vector3d, 4> cornersOf(const ViewDrawing& drawing, const ViewFrame& frame);

/// The drawing's shape and the figure's outline, each with a halo so that they read on anything.
void addOutlines(const ViewDrawing& drawing, const ViewFrame& frame, StrokeBatch& batch);

/// Lays pictures into the scene. Needs the context current in every call, the destructor too.
class DrawingPainter {
 public:
  explicit DrawingPainter(Gl& gl);
  ~DrawingPainter();
  DrawingPainter(const DrawingPainter&) = delete;
  DrawingPainter& operator=(const DrawingPainter&) = delete;

  /// Depth test as set by the caller.
  void draw(const ViewDrawing& drawing, const ViewFrame& frame);
  /// Forgets pictures that are in none of these.
  void dropUnused(const std::vector<ViewDrawing>& drawings);

 private:
  GLuint textureOf(const QImage& image);

  Gl& gl_;
  std::unique_ptr<QOpenGLShaderProgram> program_;
  QOpenGLVertexArrayObject layout_;
  std::map<qint64, GLuint> textures_;  ///< By the image's cache key.
};

}  // namespace swingroom
