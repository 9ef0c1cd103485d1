#pragma once

#include <Eigen/Geometry>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/mesh/triangle_mesh.h"

/// glTF files by tinygltf. Numbers go into the file as they are given, in single precision where the
/// format has it: metres, Y up.
namespace swingroom::writers {

class GltfWriter {
 public:
  GltfWriter();
  ~GltfWriter();

  /// @param colour  Linear red, green, blue; nothing for a mesh without a material.
  int addMesh(const std::string& name, const TriangleMesh& mesh,
              const std::optional<Eigen::Vector3d>& colour = {});

  struct Node {
    std::string name;
    int mesh = -1;
    int parent = -1;  ///< None: a root of the scene.
    std::optional<Eigen::Vector3d> translation = {};
    std::optional<Eigen::Quaterniond> rotation = {};
    std::optional<Eigen::Vector3d> scale = {};
    std::optional<Eigen::Matrix4d> matrix = {};
  };
  int addNode(const Node& node);

  int addAnimation(const std::string& name);
  /// @param path  "translation", "rotation" or "scale".
  /// @param values  x, y, z (, w) each; of CUBICSPLINE three a time.
  void addTrack(int animation, int node, const std::string& path,
                const std::vector<double>& timesS, const std::vector<Eigen::Vector4d>& values,
                const std::string& interpolation = "LINEAR");

  /// By the ending: .gltf with its buffer beside it, or .glb.
  void write(const std::filesystem::path& file) const;

 private:
  int addFloats(const std::vector<float>& numbers, int type, std::size_t count);

  struct Made;
  std::unique_ptr<Made> made_;
};

}  // namespace swingroom::writers
