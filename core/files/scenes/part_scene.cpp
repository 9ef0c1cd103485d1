#include "core/files/scenes/part_scene.h"

#include <system_error>

#include "core/files/printable.h"

namespace swingroom {

Outcome<GivenParts> readPartScene(const std::filesystem::path& file, double mmPerUnit,
                                  const MeshReader& reader, const WorkMonitor* monitor) {
  Outcome<MeshFile> read = reader.read(file, monitor);
  if (!read) return read.problems();
  GivenParts given;
  given.name = printable(file.stem().string());
  given.source = file;
  std::error_code error;
  const auto whole = std::filesystem::weakly_canonical(file, error);
  GivenPart part{given.name, error ? file : whole, std::move(read).value()};
  if (part.mesh.unitAssumed && mmPerUnit != 1) {
    part.scale = mmPerUnit;
    for (Eigen::Vector3d& v : part.mesh.mesh.vertices) v *= mmPerUnit;
  }
  given.parts.push_back(std::move(part));
  return given;
}

}  // namespace swingroom
