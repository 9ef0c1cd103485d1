#include "core/files/formats/read_with_assimp.h"

#include <assimp/BaseImporter.h>
#include <assimp/config.h>
#include <assimp/importerdesc.h>
#include <assimp/postprocess.h>
#include <assimp/scene.h>

#include <assimp/Importer.hpp>
#include <cmath>
#include <cstdio>
#include <string>
#include <string_view>

#include "core/files/formats/assimp_colour.h"
#include "core/files/formats/assimp_log.h"
#include "core/files/formats/hints.h"
#include "core/files/formats/plain_reason.h"

namespace swingroom {
namespace {

std::string_view importerNameOf(MeshFormat format) {
  switch (format) {
    case MeshFormat::stl:
      return "Stereolithography (STL) Importer";
    case MeshFormat::obj:
      return "Wavefront Object Importer";
    case MeshFormat::ply:
      return "Stanford Polygon Library (PLY) Importer";
    case MeshFormat::dae:
      return "Collada Importer";
    default:
      return "glTF2 Importer";
  }
}

/// Leaves only the importer of this format: Assimp would else try fifty others on a damaged file.
void keepOnly(Assimp::Importer& importer, std::string_view name) {
  for (std::size_t i = importer.GetImporterCount(); i-- > 0;) {
    if (importer.GetImporterInfo(i)->mName == name) continue;
    Assimp::BaseImporter* other = importer.GetImporter(i);
    importer.UnregisterLoader(other);
    delete other;
  }
}

Problem unreadable(MeshFormat format, const std::string& reason) {
  return {"", plainReason(nameOf(format), reason), kRepairHint};
}

/// Triangulation follows the indices without looking.
std::optional<Problem> indexProblem(const aiScene& scene) {
  for (unsigned m = 0; m < scene.mNumMeshes; ++m) {
    const aiMesh& mesh = *scene.mMeshes[m];
    for (unsigned f = 0; f < mesh.mNumFaces; ++f) {
      const aiFace& face = mesh.mFaces[f];
      for (unsigned i = 0; i < face.mNumIndices; ++i) {
        if (face.mIndices[i] < mesh.mNumVertices) continue;
        return Problem{"face " + std::to_string(f + 1),
                       "names corner " + std::to_string(face.mIndices[i]) +
                           " (counted from 0), but there are only " +
                           std::to_string(mesh.mNumVertices),
                       kRepairHint};
      }
    }
  }
  return std::nullopt;
}

Eigen::Affine3d affineOf(const aiMatrix4x4& m) {
  Eigen::Affine3d X = Eigen::Affine3d::Identity();
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 4; ++column) {
      X.matrix()(row, column) = static_cast<double>(m[static_cast<unsigned>(row)][column]);
    }
  }
  return X;
}

/// Triangles of one mesh; points and lines are left out.
TriangleMesh trianglesOf(const aiMesh& mesh) {
  TriangleMesh result;
  result.vertices.reserve(mesh.mNumVertices);
  for (unsigned v = 0; v < mesh.mNumVertices; ++v) {
    const aiVector3D& p = mesh.mVertices[v];
    result.vertices.emplace_back(p.x, p.y, p.z);
  }
  result.triangles.reserve(mesh.mNumFaces);
  for (unsigned f = 0; f < mesh.mNumFaces; ++f) {
    const aiFace& face = mesh.mFaces[f];
    if (face.mNumIndices == 3)
      result.triangles.push_back({face.mIndices[0], face.mIndices[1], face.mIndices[2]});
  }
  return result;
}

void append(TriangleMesh& all, const TriangleMesh& mesh) {
  const auto first = static_cast<std::uint32_t>(all.vertices.size());
  all.vertices.insert(all.vertices.end(), mesh.vertices.begin(), mesh.vertices.end());
  for (const auto& [a, b, c] : mesh.triangles)
    all.triangles.push_back({a + first, b + first, c + first});
}

/// Names that Assimp makes up start like this.
bool isMadeUp(const std::string& name) {
  return name.empty() || name.front() == '<' || name.front() == '$' || name == "defaultobject";
}

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

/// Metres with Y up, as glTF and Assimp's DAE have it, to millimetres with Z up.
Eigen::Affine3d zUpMillimetres() {
  Eigen::Matrix3d R;
  R << 1, 0, 0, 0, 0, -1, 0, 1, 0;
  Eigen::Affine3d X = Eigen::Affine3d::Identity();
  X.linear() = 1000 * R;
  return X;
}

struct DaeUnit {
  std::string name;
  double metres;
};

/// Assimp folds the unit of a DAE into the root's transform, in single precision.
DaeUnit unitOfDae(double foldedMetres) {
  const DaeUnit known[] = {
      {"m", 1}, {"cm", 0.01}, {"mm", 0.001}, {"inch", 0.0254}, {"foot", 0.3048}};
  for (const DaeUnit& unit : known) {
    if (std::abs(foldedMetres - unit.metres) < 1e-6 * unit.metres) return unit;
  }
  char text[32];
  std::snprintf(text, sizeof text, "%.4g m", foldedMetres);
  return {text, foldedMetres};
}

MeshFile flattened(const aiScene& scene, MeshFormat format) {
  MeshFile file;
  Eigen::Affine3d X_OR = Eigen::Affine3d::Identity();  // The root node in the mesh's frame.
  if (format == MeshFormat::dae) {
    const double folded = affineOf(scene.mRootNode->mTransformation).linear().col(0).norm();
    const DaeUnit unit = unitOfDae(folded);
    file.unit = unit.name;
    X_OR = zUpMillimetres() * Eigen::Scaling(unit.metres / folded);
  } else if (format == MeshFormat::gltf || format == MeshFormat::glb) {
    file.unit = "m";
    X_OR = zUpMillimetres();
  } else {
    file.unit = "mm";
    file.unitAssumed = true;
  }
  appendNode(scene, *scene.mRootNode, X_OR, file);
  file.colour = oneColourOf(scene, format);
  return file;
}

}  // namespace

Outcome<MeshFile> readWithAssimp(const std::filesystem::path& file, MeshFormat format) {
  const AssimpLog log;
  Assimp::Importer importer;
  keepOnly(importer, importerNameOf(format));
  // Else a DAE without meshes comes out as a figure made of its nodes.
  importer.SetPropertyBool(AI_CONFIG_IMPORT_NO_SKELETON_MESHES, true);
  importer.SetPropertyBool(AI_CONFIG_IMPORT_COLLADA_USE_COLLADA_NAMES, true);
  const aiScene* scene = importer.ReadFile(file.string(), 0);
  if (!scene || !scene->mRootNode) return unreadable(format, importer.GetErrorString());
  if (auto problem = log.problem()) return *std::move(problem);
  if (auto problem = indexProblem(*scene)) return *std::move(problem);
  scene = importer.ApplyPostProcessing(aiProcess_Triangulate);
  if (!scene) return unreadable(format, importer.GetErrorString());
  return flattened(*scene, format);
}

}  // namespace swingroom
