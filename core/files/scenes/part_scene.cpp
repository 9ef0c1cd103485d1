#include "core/files/scenes/part_scene.h"

#include <system_error>

#include "core/files/document/document_problems.h"
#include "core/files/printable.h"
#include "core/files/scenes/rigid_placement.h"
#include "core/files/scenes/scene_parts.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

/// Parts that do not stand rigidly, those alike together.
Problems tooDistorted(const fs::path& file, const std::vector<std::pair<std::string, std::string>>& parts) {
  Problems problems;
  for (const auto& [name, why] : parts) {
    problems.push_back({file.string() + ", " + name, why,
                        "apply its scale to its mesh in the program that made it, and export again"});
  }
  return problems;
}

GivenPart givenPart(const SceneFile& scene, const ScenePart& part, const RigidPlacement& placed) {
  const TriangleMesh& surface = scene.surfaces[part.surface].mesh;
  GivenPart given;
  given.name = part.name;
  given.inFile = surfaceName(scene, part);
  given.scale = placed.scale;
  given.mirror = placed.mirror;
  given.placement = writtenPlacement(placed.X_WP, placed.scale * reachOf(surface));
  given.mesh.mesh = transformed(surface, placed.whole());
  given.mesh.unit = scene.unit;
  given.mesh.unitAssumed = scene.unitAssumed;
  given.mesh.colour = part.colour;
  return given;
}

}  // namespace

Outcome<GivenParts> givenParts(const SceneFile& scene, const fs::path& file,
                               const std::vector<Eigen::Affine3d>& X_SPs) {
  std::error_code error;
  const fs::path whole = fs::weakly_canonical(file, error);
  GivenParts given;
  given.name = printable(file.stem().string());
  given.source = file;
  given.notes = scene.notes;
  for (Problem& note : given.notes) {
    note.where = note.where.empty() ? file.string() : file.string() + ", " + note.where;
  }
  std::vector<std::pair<std::string, std::string>> distorted;
  for (std::size_t i = 0; i < scene.parts.size(); ++i) {
    const ScenePart& part = scene.parts[i];
    const auto tried = rigidPlacementOf(X_SPs.at(i), scene.surfaces[part.surface].mesh);
    if (!tried.whyNot.empty()) {
      distorted.emplace_back(part.name, tried.whyNot);
      continue;
    }
    GivenPart made = givenPart(scene, part, tried.placement);
    made.file = error ? file : whole;
    given.parts.push_back(std::move(made));
  }
  if (!distorted.empty()) return tooDistorted(file, distorted);
  // One part where the file as a whole has it is the file.
  if (given.parts.size() == 1 && !given.parts[0].placement && !given.parts[0].mirror) {
    given.parts[0].inFile.clear();
  }
  return given;
}

Outcome<GivenParts> readPartScene(const fs::path& file, const MeshReader& reader,
                                  const WorkMonitor* monitor) {
  const Outcome<SceneFile> scene = reader.readScene(file, monitor);
  if (!scene) return scene.problems();
  std::vector<Eigen::Affine3d> X_SPs;
  for (const ScenePart& part : scene->parts) X_SPs.push_back(part.X_SP);
  return givenParts(*scene, file, X_SPs);
}

}  // namespace swingroom
