#include "core/files/formats/scene_with_assimp.h"

#include <assimp/scene.h>

#include "core/files/formats/append_mesh.h"
#include "core/files/formats/assimp_colour.h"
#include "core/files/formats/assimp_import.h"
#include "core/files/formats/gltf_tree.h"
#include "core/files/formats/scene_builder.h"
#include "core/files/scenes/keyed_pose.h"

namespace swingroom {
namespace {

bool isGltf(MeshFormat format) {
  return format == MeshFormat::gltf || format == MeshFormat::glb;
}

std::size_t countOf(const aiNode& node) {
  std::size_t count = 1;
  for (unsigned i = 0; i < node.mNumChildren; ++i) count += countOf(*node.mChildren[i]);
  return count;
}

/// Walks a scene of Assimp's, parents before children.
class Walk {
 public:
  Walk(const aiScene& scene, MeshFormat format, const std::filesystem::path& file)
      : scene_(scene), format_(format), builder_(file.stem().string()) {
    const ImportedUnit unit = unitOf(scene, format);
    SceneFile& made = builder_.scene();
    made.unit = unit.name;
    made.unitAssumed = unit.isAssumed;
    made.X_SF = unit.X_MR;
    if (format == MeshFormat::dae) {
      // The root holds the unit and axes of the file and nothing else.
      made.X_SF = withoutNoise(unit.X_MR * affineOf(scene.mRootNode->mTransformation));
    }
  }

  /// Nodes, names and animations as the file itself has them; `tree` has a node for each of ours.
  void follow(GltfTree tree) {
    SceneFile& made = builder_.scene();
    made.nodes = std::move(tree.nodes);
    made.animations = std::move(tree.animations);
    made.notes = std::move(tree.notes);
    places_ = nodePlaces(made.nodes);  // Not in single precision, as Assimp's are.
    // Of several roots Assimp makes the children of one that is not in the file.
    if (tree.roots != 1) firstIsInFile_ = false;
    followed_ = true;
  }

  Outcome<SceneFile> read() {
    const aiNode& root = *scene_.mRootNode;
    if (format_ == MeshFormat::dae || (followed_ && !firstIsInFile_)) {
      visitChildren(root, Eigen::Affine3d::Identity(), "");
    } else {
      visit(root, Eigen::Affine3d::Identity(), "");
    }
    return builder_.take();
  }

 private:
  /// Turns by quarters are exact; Assimp writes them in single precision.
  static Eigen::Affine3d withoutNoise(Eigen::Affine3d X) {
    const double size = X.linear().col(0).norm();
    const Eigen::Matrix3d whole = (X.linear() / size).array().round();
    if ((X.linear() / size - whole).norm() < 1e-6) X.linear() = size * whole;
    if (X.translation().norm() < 1e-6) X.translation().setZero();
    return X;
  }

  void visitChildren(const aiNode& node, const Eigen::Affine3d& X_FN, const std::string& above) {
    for (unsigned i = 0; i < node.mNumChildren; ++i) visit(*node.mChildren[i], X_FN, above);
  }

  /// @param X_FP  The node's parent in the file's frame.  @param above  Name of the nearest node
  /// above that has one.
  void visit(const aiNode& node, const Eigen::Affine3d& X_FP, const std::string& above) {
    const std::size_t index = visited_++;
    const Eigen::Affine3d X_FN =
        followed_ ? places_.at(index) : X_FP * affineOf(node.mTransformation);
    const std::string name = nameOf(node, index);
    if (node.mNumMeshes > 0) addPart(node, index, X_FN, {name, meshNameOf(node), above});
    visitChildren(node, X_FN, name.empty() ? above : name);
  }

  std::string nameOf(const aiNode& node, std::size_t index) {
    if (followed_) return builder_.scene().nodes.at(index).name;
    const std::string name = node.mName.C_Str();
    // The root is called after the file or its scene.
    return isMadeUp(name) || &node == scene_.mRootNode ? "" : name;
  }

  std::string meshNameOf(const aiNode& node) const {
    const std::string name = scene_.mMeshes[node.mMeshes[0]]->mName.C_Str();
    // glTF: Assimp makes up "meshes[0]", and numbers pieces of one mesh.
    return isMadeUp(name) || isGltf(format_) ? "" : name;
  }

  void addPart(const aiNode& node, std::size_t index, const Eigen::Affine3d& X_FN,
               const std::vector<std::string>& names) {
    const std::vector<unsigned> meshes(node.mMeshes, node.mMeshes + node.mNumMeshes);
    const Eigen::Affine3d& X_SF = builder_.scene().X_SF;
    ScenePart part;
    part.colour = oneColourOf(scene_, meshes, format_);
    if (followed_) part.node = index;
    part.X_SP = X_SF * X_FN * X_SF.inverse();
    Eigen::Affine3d own = X_SF;
    own.translation().setZero();
    builder_.add(part, names, {meshes.begin(), meshes.end()}, [&] {
      TriangleMesh mesh;
      for (const unsigned m : meshes) append(mesh, transformed(trianglesOf(*scene_.mMeshes[m]), own));
      return mesh;
    });
  }

  const aiScene& scene_;
  MeshFormat format_;
  SceneBuilder builder_;
  std::vector<Eigen::Affine3d> places_;
  bool followed_ = false;
  bool firstIsInFile_ = true;
  std::size_t visited_ = 0;
};

}  // namespace

Outcome<SceneFile> readSceneWithAssimp(const std::filesystem::path& file, MeshFormat format) {
  const auto scene = importByAssimp(file, format);
  if (!scene) return scene.problems();
  Walk walk(**scene, format, file);
  if (!isGltf(format)) return walk.read();
  GltfTree tree = readGltfTree(file, format == MeshFormat::glb);
  const std::size_t nodes = countOf(*(*scene)->mRootNode) - (tree.roots == 1 ? 0 : 1);
  // Should they ever differ, the parts still stand where Assimp has them.
  if (tree.nodes.size() == nodes) walk.follow(std::move(tree));
  return walk.read();
}

}  // namespace swingroom
