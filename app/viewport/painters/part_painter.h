#pragma once

#include <QOpenGLBuffer>
#include <QOpenGLVertexArrayObject>
#include <map>
#include <optional>

#include "app/viewport/painters/gl.h"
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
  bool coarse = false;                               ///< In fewer triangles, if it is large.
};

/// Draws meshes as matt plastic under an even sky and one lamp over the eye's left shoulder. Needs
/// the context current in every call, the destructor too. A mesh is sent to the graphics card once,
/// when it is first drawn.
class PartPainter {
 public:
  explicit PartPainter(Gl& gl);

  /// @param cuts  Whether any style has a section.
  void begin(const ViewProjection& projection, const DepthRange& range, bool cuts);
  void draw(const std::shared_ptr<const ViewMesh>& mesh, const Pose& X_WP,
            const SurfaceStyle& style);
  void end();
  /// Forgets meshes that nobody else holds.
  void dropUnused();

 private:
  struct Sent {
    QOpenGLVertexArrayObject layout;
    QOpenGLBuffer vertices{QOpenGLBuffer::VertexBuffer}, indices{QOpenGLBuffer::IndexBuffer};
    int count = 0;
  };
  struct Known {
    std::shared_ptr<const ViewMesh> mesh;
    std::unique_ptr<Sent> full, coarse;
  };
  void setSection(const Eigen::Vector4f& plane);
  Sent& sentOf(const std::shared_ptr<const ViewMesh>& mesh, bool coarse);

  Gl& gl_;
  std::unique_ptr<QOpenGLShaderProgram> program_;
  std::map<const ViewMesh*, Known> known_;
  Eigen::Matrix4d clipFromWorld_;
  Eigen::Affine3d viewFromWorld_;
};

}  // namespace swingroom
