#include "core/files/mesh_format.h"

#include <array>
#include <string_view>

namespace swingroom {
namespace {

struct Entry {
  MeshFormat format;
  std::string_view ending;
  std::string_view name;
};

constexpr std::array<Entry, 7> kFormats = {{{MeshFormat::stl, ".stl", "STL"},
                                            {MeshFormat::obj, ".obj", "OBJ"},
                                            {MeshFormat::ply, ".ply", "PLY"},
                                            {MeshFormat::gltf, ".gltf", "glTF"},
                                            {MeshFormat::glb, ".glb", "GLB"},
                                            {MeshFormat::dae, ".dae", "DAE"},
                                            {MeshFormat::threeMf, ".3mf", "3MF"}}};

}  // namespace

std::optional<MeshFormat> meshFormatOf(const std::filesystem::path& file) {
  std::string ending = file.extension().string();
  for (char& c : ending) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  for (const Entry& entry : kFormats) {
    if (entry.ending == ending) return entry.format;
  }
  return std::nullopt;
}

std::string nameOf(MeshFormat format) {
  for (const Entry& entry : kFormats) {
    if (entry.format == format) return std::string(entry.name);
  }
  return {};
}

std::string allMeshFormats() {
  std::string all;
  for (std::size_t i = 0; i < kFormats.size(); ++i) {
    if (i > 0) all += i + 1 == kFormats.size() ? " or " : ", ";
    all += kFormats[i].name;
  }
  return all;
}

}  // namespace swingroom
