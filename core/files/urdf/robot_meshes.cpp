#include "core/files/urdf/robot_meshes.h"

#include <algorithm>
#include <fstream>

#include "core/base/parallel.h"
#include "core/files/mesh_format.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

/// The <up_axis> of a DAE file, which stands in the <asset> at its beginning; Y if it says none.
char upAxisOfDae(const fs::path& file) {
  constexpr std::size_t kAssetBytes = 64u << 10;
  std::string head(kAssetBytes, '\0');
  std::ifstream in(file, std::ios::binary);
  in.read(head.data(), static_cast<std::streamsize>(head.size()));
  head.resize(static_cast<std::size_t>(std::max<std::streamsize>(in.gcount(), 0)));
  const auto at = head.find("<up_axis>");
  if (at == std::string::npos) return 'Y';
  const auto axis = head.find_first_not_of(" \t\r\n", at + 9);
  return axis == std::string::npos ? 'Y' : head[axis];
}

RobotMesh summaryOf(const fs::path& path, const MeshFile& file) {
  RobotMesh mesh;
  mesh.path = path;
  mesh.hasUnit = !file.unitAssumed;
  mesh.colour = file.colour;
  mesh.sizeMm = boundsOf(file.mesh).sizes();
  mesh.turned = turnOfReader(path);
  return mesh;
}

}  // namespace

Eigen::Matrix3d turnOfReader(const fs::path& file) {
  Eigen::Matrix3d up, side;
  up << 1, 0, 0, 0, 0, -1, 0, 1, 0;    // Y up to Z up.
  side << 0, -1, 0, 1, 0, 0, 0, 0, 1;  // X up to Y up.
  const auto format = meshFormatOf(file);
  if (format == MeshFormat::gltf || format == MeshFormat::glb) return up;
  if (format != MeshFormat::dae) return Eigen::Matrix3d::Identity();
  switch (upAxisOfDae(file)) {
    case 'Z':
      return Eigen::Matrix3d::Identity();
    case 'X':
      return up * side;
    default:
      return up;
  }
}

std::map<std::string, RobotMesh> robotMeshes(const std::vector<const RobotShape*>& shapes,
                                             MeshPlaces& places, const RobotMeshReading& reading,
                                             XmlProblems& problems) {
  std::map<std::string, fs::path> paths;
  for (const RobotShape* shape : shapes) {
    if (shape->kind != RobotShapeKind::mesh || shape->file.empty()) continue;
    if (const auto path = places.find(*shape)) paths[shape->file] = *path;
  }
  places.tell(problems);
  std::vector<fs::path> files;
  for (const auto& [name, path] : paths) files.push_back(path);
  std::sort(files.begin(), files.end());
  files.erase(std::unique(files.begin(), files.end()), files.end());
  std::vector<Problems> wrong(files.size());
  std::vector<RobotMesh> read(files.size());
  parallelFor(files.size(), reading.threads, [&](std::size_t i) {
    const Outcome<MeshFile> file = reading.reader.read(files[i], reading.monitor);
    wrong[i] = file.problems();
    if (file) read[i] = summaryOf(files[i], *file);
  });
  for (const Problems& some : wrong) {
    problems.mistakes.insert(problems.mistakes.end(), some.begin(), some.end());
  }
  std::map<std::string, RobotMesh> meshes;
  for (const auto& [name, path] : paths) {
    const auto at = std::lower_bound(files.begin(), files.end(), path);
    meshes[name] = read[static_cast<std::size_t>(at - files.begin())];
  }
  return meshes;
}

}  // namespace swingroom
