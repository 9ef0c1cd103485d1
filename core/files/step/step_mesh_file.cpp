#include "core/files/step/step_mesh_file.h"

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

Outcome<MeshFile> readStepMesh(const std::filesystem::path& file, double deviationMm,
                               const std::function<void(const Problem&)>& faults) {
  const Outcome<StepFile> read = readStep(file, deviationMm, faults);
  if (!read) return read.problems();
  MeshFile joined;
  joined.unit = read.value().unit;
  joined.colour = commonColour(read.value().parts);
  for (const StepPart& part : read.value().parts) {
    append(transformed(read.value().bodies[part.body].mesh, Eigen::Affine3d(part.X_WB)),
           joined.mesh);
    joined.objects.push_back(part.name);
  }
  joined.mesh = welded(joined.mesh);
  return joined;
}

}  // namespace swingroom
