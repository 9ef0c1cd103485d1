#pragma once

#include <Eigen/Geometry>
#include <array>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "core/mesh/triangle_mesh.h"

/// 3MF files by lib3mf. Numbers go into the file as they are given, in single precision.
namespace swingroom::writers {

class ThreeMfWriter {
 public:
  enum class Unit { millimetre, inch, metre };

  explicit ThreeMfWriter(Unit unit);
  ~ThreeMfWriter();

  /// @param rgb  Of the whole object; nothing for none.
  /// @returns The object, for `addComponents` and `build`.
  int addMesh(const std::string& name, const TriangleMesh& mesh,
              const std::vector<int>& rgb = {}, bool isSupport = false);

  struct Component {
    int object = 0;
    Eigen::Affine3d X = Eigen::Affine3d::Identity();
  };
  int addComponents(const std::string& name, const std::vector<Component>& components);

  void build(int object, const Eigen::Affine3d& X = Eigen::Affine3d::Identity());
  void write(const std::filesystem::path& file) const;

 private:
  struct Made;
  std::unique_ptr<Made> made_;
};

}  // namespace swingroom::writers
