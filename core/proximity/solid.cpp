#include "core/proximity/solid.h"

#include <mutex>
#include <optional>

#include "core/mesh/health.h"
#include "core/tree/point_query.h"

namespace swingroom {
namespace {

TriangleMesh closedShellsOf(const TriangleMesh& mesh, const MeshHealth& health) {
  TriangleMesh closed;
  closed.vertices = mesh.vertices;
  for (const Shell& shell : health.shells) {
    if (!shell.closed) continue;
    for (const std::uint32_t t : shell.triangles) closed.triangles.push_back(mesh.triangles[t]);
  }
  return closed;
}

}  // namespace

struct Solid::MadeLater {
  std::once_flag once;
  std::optional<WallNeighbours> neighbours;
};

Solid::Solid(const TriangleMesh& mesh)
    : boundary_(TriangleMesh{}), later_(std::make_shared<MadeLater>()) {
  const MeshHealth health = examine(mesh);
  closed_ = health.closed();
  boundary_ = BoundingTree(closedShellsOf(mesh, health));
  for (const Shell& shell : health.shells) shellCorners_.push_back(mesh.corner(shell.triangles.front(), 0));
}

bool Solid::contains(const Eigen::Vector3d& p) const { return windingNumber(boundary_, p) != 0; }

const WallNeighbours& Solid::neighbours() const {
  std::call_once(later_->once, [this] { later_->neighbours.emplace(boundary_); });
  return *later_->neighbours;
}

}  // namespace swingroom
