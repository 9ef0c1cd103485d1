#include "core/proximity/gap.h"

#include <fcl/geometry/bvh/BVH_model.h>
#include <fcl/narrowphase/distance.h>

#include <stdexcept>

namespace swingroom {

// OBBRSS: with plain OBB, distances of this engine are garbage (tests/contracts).
struct GapModel::Engine {
  fcl::BVHModel<fcl::OBBRSSd> model;
};

GapModel::GapModel(const TriangleMesh& mesh) {
  if (mesh.triangles.empty()) throw std::invalid_argument("GapModel: the mesh has no triangles");
  auto engine = std::make_shared<Engine>();
  std::vector<fcl::Triangle> triangles;
  triangles.reserve(mesh.triangles.size());
  for (const auto& [a, b, c] : mesh.triangles) triangles.emplace_back(a, b, c);
  engine->model.beginModel();
  engine->model.addSubModel(mesh.vertices, triangles);
  engine->model.endModel();
  engine_ = std::move(engine);
}

GapModel::~GapModel() = default;
GapModel::GapModel(const GapModel&) = default;
GapModel& GapModel::operator=(const GapModel&) = default;

PlacedGap gapBetween(const GapModel& a, const GapModel& b, const Pose& X_AB, double withinMm) {
  fcl::DistanceRequestd request;
  request.enable_nearest_points = true;
  fcl::DistanceResultd result;
  result.min_distance = withinMm;
  fcl::distance(&a.engine().model, fcl::Transform3d::Identity(), &b.engine().model, fcl::Transform3d(X_AB), request,
                result);
  PlacedGap gap;
  gap.gapMm = result.min_distance;
  gap.meets = result.min_distance <= 0;
  gap.found = result.min_distance < withinMm;
  if (gap.found && !gap.meets) {
    gap.onA_A = result.nearest_points[0];
    gap.onB_A = result.nearest_points[1];
  }
  return gap;
}

}  // namespace swingroom
