#include "core/files/scenes/part_scene.h"

#include <system_error>

#include "core/files/printable.h"

namespace swingroom {

Outcome<GivenParts> readPartScene(const std::filesystem::path& file, const MeshReader& reader,
                                  const WorkMonitor* monitor) {
  Outcome<MeshFile> read = reader.read(file, monitor);
  if (!read) return read.problems();
  GivenParts given;
  given.name = printable(file.stem().string());
  given.source = file;
  std::error_code error;
  const auto whole = std::filesystem::weakly_canonical(file, error);
  given.parts.push_back({given.name, error ? file : whole, std::move(read).value()});
  return given;
}

}  // namespace swingroom
