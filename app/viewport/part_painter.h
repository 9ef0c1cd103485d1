#pragma once

#include <QOpenGLBuffer>
#include <QOpenGLVertexArrayObject>
#include <map>
#include <optional>

#include "app/viewport/gl.h"
#include "app/viewport/view_camera.h"
#include "app/viewport/view_mesh.h"
#include "app/viewport/view_scene.h"

namespace swingroom {

/// How one part's surface looks. Colours as displayed, 0 to 1.
struct SurfaceStyle {
  Eigen::Vector3f colour = Eigen::Vector3f::Zero();
  Eigen::Vector3f ground = Eigen::Vector3f::Zero();  ///< What pale parts come near to.
  float paleness = 0;                                ///< Share of `ground`.
  bool clear = false;                                ///< Seen through: drawn after all others.
  std::optional<ViewSection> section;                ///< What lies beyond it is not drawn.
};

/// Draws meshes as matt plastic under an even sky and one lamp over the eye's left shoulder. Needs
/// the context current in every call, the destructor too. A mesh is sent to the graphics card once.
class PartPainter {
 public:
  explicit PartPainter(Gl& gl);

  void begin(const ViewProjection& projection, const DepthRange& range);
  void draw(const std::shared_ptr<const ViewMesh>& mesh, const Pose& X_WP,
            const SurfaceStyle& style);
  void end();
  /// Forgets meshes that nobody else holds.
  void dropUnused();

 private:
  struct Buffers {
    std::shared_ptr<const ViewMesh> mesh;
    QOpenGLVertexArrayObject layout;
    QOpenGLBuffer vertices{QOpenGLBuffer::VertexBuffer}, indices{QOpenGLBuffer::IndexBuffer};
  };
  void setSection(const Eigen::Vector4f& plane);
  Buffers& buffersOf(const std::shared_ptr<const ViewMesh>& mesh);

  Gl& gl_;
  std::unique_ptr<QOpenGLShaderProgram> program_;
  std::map<const ViewMesh*, std::unique_ptr<Buffers>> buffers_;
  Eigen::Matrix4d clipFromWorld_;
  Eigen::Affine3d viewFromWorld_;
};

}  // namespace swingroom
