#pragma once

#include <QOpenGLBuffer>
#include <QOpenGLVertexArrayObject>
#include <map>
#include <optional>

#include "app/viewport/paint/paint_mesh.h"
#include "app/viewport/painters/gl.h"
#include "app/viewport/view_camera.h"
#include "app/viewport/view_scene.h"

namespace swingroom {

/// Draws painted surfaces: the scale's colours under a softer light than plain parts have, so that
/// they can be compared with the legend; lines at the scale's levels; dots on what is left out.
/// Needs the context current in every call, the destructor too. A surface is sent to the graphics
/// card once, when it is first drawn.
class PaintPainter {
 public:
  explicit PaintPainter(Gl& gl);
  ~PaintPainter();
  PaintPainter(const PaintPainter&) = delete;
  PaintPainter& operator=(const PaintPainter&) = delete;

  /// @param pixelRatio  The display's pixels a pixel of the layout.
  /// @param cuts  Whether any surface is drawn with a section.
  void begin(const ViewProjection& projection, const DepthRange& range, const PaintScale& scale,
             double pixelRatio, bool cuts);
  void draw(const std::shared_ptr<const PaintMesh>& mesh, const Pose& X_WP,
            const std::optional<ViewSection>& section);
  void end();
  /// Forgets surfaces that nobody else holds.
  void dropUnused();

 private:
  struct Sent {
    std::shared_ptr<const PaintMesh> mesh;
    QOpenGLVertexArrayObject layout;
    QOpenGLBuffer vertices{QOpenGLBuffer::VertexBuffer}, indices{QOpenGLBuffer::IndexBuffer};
    int count = 0;
  };
  Sent& sentOf(const std::shared_ptr<const PaintMesh>& mesh);
  void sendScale(const PaintScale& scale);

  Gl& gl_;
  std::unique_ptr<QOpenGLShaderProgram> program_;
  std::map<const PaintMesh*, std::unique_ptr<Sent>> known_;
  PaintScale scale_;
  unsigned colours_ = 0;  ///< Texture: the scale from its first stop to its last.
  Eigen::Matrix4d clipFromWorld_;
  Eigen::Affine3d viewFromWorld_;
};

}  // namespace swingroom
