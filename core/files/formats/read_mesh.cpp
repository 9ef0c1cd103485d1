#include "core/files/formats/read_mesh.h"

#include <fstream>
#include <string>

#include "core/files/formats/check_content.h"
#include "core/files/formats/guarded.h"
#include "core/files/formats/read_3mf.h"
#include "core/files/formats/read_with_assimp.h"
#include "core/mesh/weld.h"

namespace swingroom {
namespace {

std::optional<Problem> problemOf(const TriangleMesh& mesh) {
  if (mesh.triangles.empty()) return Problem{"", "has no triangles", "export the mesh again"};
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    for (int i = 0; i < 3; ++i) {
      if (mesh.corner(t, i).allFinite()) continue;
      return Problem{"triangle " + std::to_string(t + 1),
                     "has a corner that is not at a finite place",
                     "repair or export the mesh again"};
    }
  }
  return std::nullopt;
}

}  // namespace

Outcome<MeshFormat> checkedFormat(const std::filesystem::path& file) {
  const auto format = meshFormatOf(file);
  if (!format)
    return Problem{"", "has an ending that is not read", "export it as " + allMeshFormats()};
  std::string bytes(std::filesystem::file_size(file), '\0');
  if (!std::ifstream(file, std::ios::binary)
           .read(bytes.data(), static_cast<std::streamsize>(bytes.size())))
    return Problem{"", "cannot be read", "check its rights"};
  if (auto problem = checkContent(bytes, *format)) return *std::move(problem);
  return *format;
}

Outcome<MeshFile> readMeshHere(const std::filesystem::path& file) {
  return guarded([&]() -> Outcome<MeshFile> {
    const Outcome<MeshFormat> format = checkedFormat(file);
    if (!format.ok()) return format.problems();
    Outcome<MeshFile> outcome =
        *format == MeshFormat::threeMf ? readThreeMf(file) : readWithAssimp(file, *format);
    if (!outcome.ok()) return outcome;
    if (auto problem = problemOf(outcome->mesh)) return *std::move(problem);
    outcome->mesh = welded(outcome->mesh);
    return outcome;
  });
}

}  // namespace swingroom
