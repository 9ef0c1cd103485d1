#include "core/proximity/solid.h"

#include <mutex>
#include <optional>
#include <utility>

#include "core/mesh/health.h"
#include "core/tree/point_query.h"

namespace swingroom {
namespace {

TriangleMesh closedShellsOf(const TriangleMesh& mesh, const std::vector<Shell>& shells) {
  TriangleMesh closed;
  closed.vertices = mesh.vertices;
  for (const Shell& shell : shells) {
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

Solid::Solid(const TriangleMesh& mesh) : Solid(mesh, nullptr) {}

Solid::Solid(const TriangleMesh& mesh, std::shared_ptr<const BoundingTree> whole)
    : boundary_(std::move(whole)), later_(std::make_shared<MadeLater>()) {
  const std::vector<Shell> shells = shellsOf(mesh);
  std::size_t bounding = 0;
  closed_ = !shells.empty();
  for (const Shell& shell : shells) {
    if (shell.closed) bounding += shell.triangles.size();
    closed_ = closed_ && shell.closed;
    shellCorners_.push_back(mesh.corner(shell.triangles.front(), 0));
  }
  if (boundary_ && bounding == mesh.triangles.size()) return;
  boundary_ = std::make_shared<const BoundingTree>(
      bounding == mesh.triangles.size() ? mesh : closedShellsOf(mesh, shells));
}

bool Solid::contains(const Eigen::Vector3d& p) const { return windingNumber(*boundary_, p) != 0; }

const WallNeighbours& Solid::neighbours() const {
  std::call_once(later_->once, [this] { later_->neighbours.emplace(*boundary_); });
  return *later_->neighbours;
}

}  // namespace swingroom
