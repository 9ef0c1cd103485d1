#include "core/files/formats/writing/write_mesh.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <bit>
#include <cstring>

#include "core/files/mesh_format.h"
#include "core/files/replace_file.h"

namespace swingroom {
namespace {

template <typename Value>
void put(std::string& bytes, const Value& value) {
  static_assert(std::endian::native == std::endian::little);
  const char* from = reinterpret_cast<const char*>(&value);
  bytes.append(from, sizeof value);
}

void putVector(std::string& bytes, const Eigen::Vector3d& v) {
  for (int d = 0; d < 3; ++d) put(bytes, static_cast<float>(v[d]) + 0.0f);  // -0 becomes 0.
}

}  // namespace

bool canWriteMesh(const std::filesystem::path& file) {
  const auto format = meshFormatOf(file);
  return format == MeshFormat::stl || format == MeshFormat::threeMf;
}

std::string stlBytes(const TriangleMesh& mesh, const std::string& name) {
  constexpr std::size_t kTitle = 80;
  // A title that begins with "solid" would be taken for a text file.
  std::string bytes = "mm: " + name;
  bytes.resize(kTitle, ' ');
  bytes.reserve(kTitle + 4 + mesh.triangles.size() * 50);
  put(bytes, static_cast<std::uint32_t>(mesh.triangles.size()));
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const Eigen::Vector3d &a = mesh.corner(t, 0), &b = mesh.corner(t, 1), &c = mesh.corner(t, 2);
    putVector(bytes, (b - a).cross(c - a).normalized());
    for (const auto& corner : {a, b, c}) putVector(bytes, corner);
    put(bytes, std::uint16_t{0});
  }
  return bytes;
}

std::optional<Problem> writeMesh(const std::filesystem::path& file, const TriangleMesh& mesh, const std::string& name) {
  const auto format = meshFormatOf(file);
  if (format == MeshFormat::stl) return replaceFile(file, stlBytes(mesh, name));
  if (format != MeshFormat::threeMf) {
    return Problem{file.string(), "is no kind of file that meshes are written as", "end its name in .stl or .3mf"};
  }
  const Outcome<std::string> bytes = threeMfBytes(mesh, name);
  if (bytes) return replaceFile(file, *bytes);
  Problem problem = bytes.problems().front();
  problem.where = file.string();
  return problem;
}

}  // namespace swingroom
