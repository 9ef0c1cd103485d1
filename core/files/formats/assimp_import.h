#pragma once

#include <Eigen/Geometry>
#include <filesystem>
#include <memory>
#include <string>

#include "core/base/outcome.h"
#include "core/files/mesh_format.h"
#include "core/mesh/triangle_mesh.h"

struct aiMesh;
struct aiScene;

namespace swingroom {

/// Reads a file by Assimp and triangulates its faces. Never null; lives on its own.
Outcome<std::shared_ptr<const aiScene>> importByAssimp(const std::filesystem::path& file,
                                                       MeshFormat format);

/// Triangles of one mesh, in the file's unit; points and lines are left out.
TriangleMesh trianglesOf(const aiMesh& mesh);

/// `aiMatrix4x4`, by its rows.
template <typename Matrix>
Eigen::Affine3d affineOf(const Matrix& m) {
  Eigen::Affine3d X = Eigen::Affine3d::Identity();
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 4; ++column) {
      X.matrix()(row, column) = static_cast<double>(m[static_cast<unsigned>(row)][column]);
    }
  }
  return X;
}

/// Names that Assimp makes up.
bool isMadeUp(const std::string& name);

/// The unit and the axes of what Assimp hands out.
struct ImportedUnit {
  std::string name;       ///< "m".
  bool isAssumed = false;  ///< The format has no unit: mm was taken.
  Eigen::Affine3d X_MR;   ///< The root node's parent in millimetres with Z up.
};
ImportedUnit unitOf(const aiScene& scene, MeshFormat format);

}  // namespace swingroom
