#include "app/viewport/view_edges.h"

#include <optional>

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

/// A section's plane where the mesh's points are given.
struct PlaneInMesh {
  Eigen::Vector3f normal;
  float place;

  PlaneInMesh(const ViewSection& section, const Pose& X_WM)
      : normal((X_WM.linear().transpose() * section.normal_W).cast<float>()),
        place(static_cast<float>(-section.beyondMm(X_WM.translation()))) {}
  /// Shortens the line to what is not beyond the plane. @returns Whether anything is left.
  bool keeps(Eigen::Vector3f& a, Eigen::Vector3f& b) const {
    const float da = normal.dot(a) - place, db = normal.dot(b) - place;
    if (da >= 0 && db >= 0) return false;
    if (da > 0) a += (b - a) * (da / (da - db));
    if (db > 0) b += (a - b) * (db / (db - da));
    return true;
  }
};

}  // namespace

void addEdges(const ViewMesh& mesh, const Pose& X_WP, const StrokeStyle& crease,
              const StrokeStyle& outline, const ViewSection* section, StrokeBatch& batch) {
  const Pose X_WM = X_WP * translation(mesh.middle);
  const std::vector<char> facing = facingEye(mesh, X_WM, batch.projection().camera());
  const std::optional<PlaneInMesh> plane =
      section != nullptr ? std::optional(PlaneInMesh(*section, X_WM)) : std::nullopt;
  const Eigen::Affine3f X_VM = (batch.projection().viewFromWorld() * X_WM).cast<float>();
  for (const ViewMesh::Edge& edge : mesh.edges) {
    const bool turnsAway = facing[edge.left] != facing[edge.right] || edge.left == edge.right;
    // A crease between two faces that both look away is seen from inside only.
    if (!turnsAway && !(edge.feature && facing[edge.left])) continue;
    Eigen::Vector3f a = mesh.corners[edge.a], b = mesh.corners[edge.b];
    if (plane && !plane->keeps(a, b)) continue;
    batch.lineInView(X_VM * a, X_VM * b, turnsAway ? outline : crease);
  }
}

}  // namespace swingroom
