#include "app/viewport/view_edges.h"

namespace swingroom {
namespace {

/// By triangle: whether its front looks at the eye.
std::vector<char> facingEye(const ViewMesh& mesh, const Pose& X_WM, const ViewCamera& camera) {
  const Pose X_MW = X_WM.inverse();
  // n.eye - n.p > 0, or with the eye infinitely far n.(-towards) > 0: both are one product of four.
  Eigen::Vector4f eye;
  if (camera.perspective) {
    eye << (X_MW * camera.eye_W()).cast<float>(), -1.0F;
  } else {
    eye << (X_MW.linear() * -camera.towards_W()).cast<float>(), 0.0F;
  }
  std::vector<char> facing(mesh.planes.size());
  for (std::size_t i = 0; i < facing.size(); ++i) facing[i] = mesh.planes[i].dot(eye) > 0;
  return facing;
}

}  // namespace

void addEdges(const ViewMesh& mesh, const Pose& X_WP, const StrokeStyle& crease,
              const StrokeStyle& outline, StrokeBatch& batch) {
  const Pose X_WM = X_WP * translation(mesh.middle);
  const std::vector<char> facing = facingEye(mesh, X_WM, batch.projection().camera());
  const Eigen::Affine3f X_VM = (batch.projection().viewFromWorld() * X_WM).cast<float>();
  for (const ViewMesh::Edge& edge : mesh.edges) {
    const bool turnsAway = facing[edge.left] != facing[edge.right] || edge.left == edge.right;
    // A crease between two faces that both look away is seen from inside only.
    if (!turnsAway && !(edge.feature && facing[edge.left])) continue;
    batch.lineInView(X_VM * mesh.corners[edge.a], X_VM * mesh.corners[edge.b],
                     turnsAway ? outline : crease);
  }
}

}  // namespace swingroom
