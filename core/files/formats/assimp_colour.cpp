#include "core/files/formats/assimp_colour.h"

#include <assimp/material.h>
#include <assimp/scene.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numeric>
#include <set>
#include <string_view>

namespace swingroom {
namespace {

/// IEC 61966-2-1. glTF gives linear light, colours are written as they are shown.
double shownFromLinear(double c) {
  return c <= 0.0031308 ? 12.92 * c : 1.055 * std::pow(c, 1 / 2.4) - 0.055;
}

std::string hexOf(const aiColor4D& colour, bool isLinear) {
  const auto byte = [&](float c) {
    const double share = std::clamp(static_cast<double>(c), 0.0, 1.0);
    return static_cast<unsigned>(std::lround(255 * (isLinear ? shownFromLinear(share) : share)));
  };
  char text[8];
  std::snprintf(text, sizeof text, "#%02X%02X%02X", byte(colour.r), byte(colour.g), byte(colour.b));
  return text;
}

}  // namespace

std::vector<unsigned> allMeshesOf(const aiScene& scene) {
  std::vector<unsigned> meshes(scene.mNumMeshes);
  std::iota(meshes.begin(), meshes.end(), 0u);
  return meshes;
}

std::optional<std::string> oneColourOf(const aiScene& scene, const std::vector<unsigned>& meshes,
                                       MeshFormat format) {
  const bool isGltf = format == MeshFormat::gltf || format == MeshFormat::glb;
  const bool hasColours = isGltf || format == MeshFormat::obj || format == MeshFormat::dae;
  if (!hasColours) return std::nullopt;  // Assimp's own white and grey are not the file's.
  std::set<std::string> colours;
  for (const unsigned m : meshes) {
    const unsigned index = scene.mMeshes[m]->mMaterialIndex;
    if (index >= scene.mNumMaterials) continue;
    // Assimp gives meshes without a material one of its own: in glTF the last, else one of this
    // name.
    if (isGltf && index + 1 == scene.mNumMaterials) continue;
    const aiMaterial& material = *scene.mMaterials[index];
    aiString name;
    material.Get(AI_MATKEY_NAME, name);
    if (std::string_view(name.C_Str()) == AI_DEFAULT_MATERIAL_NAME) continue;
    aiColor4D colour;
    if (material.GetTextureCount(aiTextureType_DIFFUSE) > 0) return std::nullopt;
    if (material.Get(AI_MATKEY_COLOR_DIFFUSE, colour) == aiReturn_SUCCESS)
      colours.insert(hexOf(colour, isGltf));
  }
  if (colours.size() != 1) return std::nullopt;
  return *colours.begin();
}

}  // namespace swingroom
