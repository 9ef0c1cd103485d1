#include "core/files/step/step_scene.h"

#include <algorithm>

#include "core/mesh/weld.h"

namespace swingroom {
namespace {

/// The colour, if all parts have one and the same.
std::optional<std::string> commonColour(const std::vector<StepPart>& parts) {
  for (const StepPart& part : parts) {
    if (part.colour != parts.front().colour) return std::nullopt;
  }
  return parts.front().colour;
}

void append(const TriangleMesh& mesh, TriangleMesh& all) {
  const auto first = static_cast<std::uint32_t>(all.vertices.size());
  all.vertices.insert(all.vertices.end(), mesh.vertices.begin(), mesh.vertices.end());
  for (const Triangle& t : mesh.triangles) {
    all.triangles.push_back({t[0] + first, t[1] + first, t[2] + first});
  }
}

}  // namespace

SceneFile sceneOf(StepFile file) {
  SceneFile scene;
  scene.unit = file.unit;
  for (StepBody& body : file.bodies) {
    scene.surfaces.push_back({welded(body.mesh), std::move(body.features), body.deviationMm});
  }
  for (StepPart& part : file.parts) {
    ScenePart placed;
    placed.name = std::move(part.name);
    placed.surface = part.body;
    placed.colour = std::move(part.colour);
    placed.X_SP = Eigen::Affine3d(part.X_WB);
    scene.parts.push_back(std::move(placed));
  }
  scene.notes = std::move(file.notes);
  return scene;
}

MeshFile joinedMeshOf(const StepFile& file) {
  MeshFile joined;
  joined.unit = file.unit;
  joined.colour = commonColour(file.parts);
  for (const StepPart& part : file.parts) {
    const StepBody& body = file.bodies[part.body];
    append(transformed(body.mesh, Eigen::Affine3d(part.X_WB)), joined.mesh);
    joined.objects.push_back(part.name);
    joined.deviationMm = std::max(joined.deviationMm, body.deviationMm);
  }
  joined.mesh = welded(joined.mesh);
  return joined;
}

}  // namespace swingroom
