#include "core/files/formats/assimp_import.h"

#include <assimp/BaseImporter.h>
#include <assimp/config.h>
#include <assimp/importerdesc.h>
#include <assimp/postprocess.h>
#include <assimp/scene.h>

#include <assimp/Importer.hpp>
#include <cmath>
#include <cstdio>
#include <string_view>

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

}  // namespace

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

bool isMadeUp(const std::string& name) {
  return name.empty() || name.front() == '<' || name.front() == '$' || name == "defaultobject";
}

ImportedUnit unitOf(const aiScene& scene, MeshFormat format) {
  if (format == MeshFormat::dae) {
    const double folded = affineOf(scene.mRootNode->mTransformation).linear().col(0).norm();
    const DaeUnit unit = unitOfDae(folded);
    return {unit.name, false, zUpMillimetres() * Eigen::Scaling(unit.metres / folded)};
  }
  if (format == MeshFormat::gltf || format == MeshFormat::glb) {
    return {"m", false, zUpMillimetres()};
  }
  return {"mm", true, Eigen::Affine3d::Identity()};
}

Outcome<std::shared_ptr<const aiScene>> importByAssimp(const std::filesystem::path& file,
                                                       MeshFormat format) {
  const AssimpLog log;
  const auto importer = std::make_shared<Assimp::Importer>();
  keepOnly(*importer, importerNameOf(format));
  // Else a DAE without meshes comes out as a figure made of its nodes.
  importer->SetPropertyBool(AI_CONFIG_IMPORT_NO_SKELETON_MESHES, true);
  importer->SetPropertyBool(AI_CONFIG_IMPORT_COLLADA_USE_COLLADA_NAMES, true);
  const aiScene* scene = importer->ReadFile(file.string(), 0);
  if (!scene || !scene->mRootNode) return unreadable(format, importer->GetErrorString());
  if (auto problem = log.problem()) return *std::move(problem);
  if (auto problem = indexProblem(*scene)) return *std::move(problem);
  scene = importer->ApplyPostProcessing(aiProcess_Triangulate);
  if (!scene) return unreadable(format, importer->GetErrorString());
  return std::shared_ptr<const aiScene>(importer, scene);
}

}  // namespace swingroom
