#include "core/files/formats/read_with_assimp.h"

#include <assimp/scene.h>

#include "core/files/formats/append_mesh.h"
#include "core/files/formats/assimp_colour.h"
#include "core/files/formats/assimp_import.h"

namespace swingroom {
namespace {

/// @param X_OP  Where the node's parent stands in the mesh's frame O.
void appendNode(const aiScene& scene, const aiNode& node, const Eigen::Affine3d& X_OP,
                MeshFile& file) {
  const Eigen::Affine3d X_ON = X_OP * affineOf(node.mTransformation);
  for (unsigned i = 0; i < node.mNumMeshes; ++i) {
    append(file.mesh, transformed(trianglesOf(*scene.mMeshes[node.mMeshes[i]]), X_ON));
  }
  const std::string name = node.mName.C_Str();
  if (node.mNumMeshes > 0 && !isMadeUp(name)) file.objects.push_back(name);
  for (unsigned i = 0; i < node.mNumChildren; ++i)
    appendNode(scene, *node.mChildren[i], X_ON, file);
}

}  // namespace

Outcome<MeshFile> readWithAssimp(const std::filesystem::path& file, MeshFormat format) {
  const auto scene = importByAssimp(file, format);
  if (!scene) return scene.problems();
  const ImportedUnit unit = unitOf(**scene, format);
  MeshFile read;
  read.unit = unit.name;
  read.unitAssumed = unit.isAssumed;
  appendNode(**scene, *(*scene)->mRootNode, unit.X_MR, read);
  read.colour = oneColourOf(**scene, allMeshesOf(**scene), format);
  return read;
}

}  // namespace swingroom
