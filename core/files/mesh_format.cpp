#include "core/files/mesh_format.h"

#include <array>
#include <string_view>
#include <vector>

namespace swingroom {
namespace {

struct Entry {
  MeshFormat format;
  std::string_view ending;
  std::string_view name;
};

constexpr std::array<Entry, 9> kFormats = {{{MeshFormat::stl, ".stl", "STL"},
                                            {MeshFormat::obj, ".obj", "OBJ"},
                                            {MeshFormat::ply, ".ply", "PLY"},
                                            {MeshFormat::gltf, ".gltf", "glTF"},
                                            {MeshFormat::glb, ".glb", "GLB"},
                                            {MeshFormat::dae, ".dae", "DAE"},
                                            {MeshFormat::threeMf, ".3mf", "3MF"},
                                            {MeshFormat::step, ".step", "STEP"},
                                            {MeshFormat::step, ".stp", "STEP"}}};

#ifdef SWINGROOM_READS_STEP
constexpr bool kReadsStep = true;
#else
constexpr bool kReadsStep = false;
#endif

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
  std::vector<std::string_view> names;
  for (const Entry& entry : kFormats) {
    const bool isRead = entry.format != MeshFormat::step || kReadsStep;
    if (isRead && (names.empty() || names.back() != entry.name)) names.push_back(entry.name);
  }
  std::string all;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) all += i + 1 == names.size() ? " or " : ", ";
    all += names[i];
  }
  return all;
}

}  // namespace swingroom
