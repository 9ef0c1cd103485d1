#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/files/mesh_file.h"
#include "core/files/urdf/mesh_places.h"
#include "core/files/urdf/robot_description.h"

namespace swingroom {

/// A mesh file that a URDF names.
struct RobotMesh {
  std::filesystem::path path;
  bool hasUnit = false;  ///< DAE, glTF, GLB, 3MF.
  std::optional<std::string> colour;
  Vector3d sizeMm = Vector3d::Zero();  ///< Of the box round it; without a unit: its numbers.
  /// Robot tools take a file's numbers as they stand, with their unit, and leave its up axis out
  /// (links of real robots meet only so); the mesh reader turns it up. This is what it turns.
  Eigen::Matrix3d turned = Eigen::Matrix3d::Identity();
};

/// What the meshes are read with.
struct RobotMeshReading {
  const MeshReader& reader;
  unsigned threads = 1;
  const WorkMonitor* monitor = nullptr;
};

/// Finds and reads the meshes of these shapes; those of other kinds are passed over. What is not
/// there or cannot be read is told in one go.
/// @returns By the name that the URDF has for them.
std::map<std::string, RobotMesh> robotMeshes(const std::vector<const RobotShape*>& shapes,
                                             MeshPlaces& places, const RobotMeshReading& reading,
                                             XmlProblems& problems);

/// How the mesh reader turns a file of that format and up axis. Tests know it by hand-written
/// files.
Eigen::Matrix3d turnOfReader(const std::filesystem::path& file);

}  // namespace swingroom
