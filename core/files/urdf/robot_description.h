#pragma once

#include <array>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/base/transform.h"

/// A robot as its URDF file (the open Unified Robot Description Format) has it: metres, radians,
/// names in place of ids, nothing worked out. Link frame L, joint frame J (that of the child link
/// at value 0), parent link P. `line` is where the element begins.
namespace swingroom {

enum class RobotShapeKind { mesh, box, cylinder, sphere };

struct RobotShape {
  RobotShapeKind kind = RobotShapeKind::mesh;
  std::string file;                      ///< Of a mesh, as written: path, package:// or file://.
  std::array<double, 3> scale{1, 1, 1};  ///< Of a mesh; negative: mirrored.
  std::array<double, 3> sizeM{0, 0,
                              0};  ///< Box: x, y, z. Cylinder: radius, length. Sphere: radius.
  int line = 0;
};

/// A shape of a link: what is seen (`visual`) or what collides (`collision`).
struct RobotBody {
  std::string name;  ///< May be empty.
  Pose X_LB = Pose::Identity();
  RobotShape shape;
  std::optional<std::string> colour;  ///< "#RRGGBB".
  bool seeThrough = false;
  int line = 0;
};

struct RobotLink {
  std::string name;
  std::vector<RobotBody> visuals;
  std::vector<RobotBody> collisions;
  int line = 0;
};

enum class RobotJointKind { revolute, continuous, prismatic, fixed, floating, planar };

/// value = multiplier * value of `joint` + offset, radians or metres.
struct RobotMimic {
  std::string joint;
  double multiplier = 1;
  double offset = 0;
  int line = 0;
};

struct RobotJoint {
  std::string name;
  RobotJointKind kind = RobotJointKind::fixed;
  std::string parent;
  std::string child;
  Pose X_PJ = Pose::Identity();
  Vector3d axis_J{1, 0, 0};                     ///< Of any length but 0.
  std::optional<std::array<double, 2>> limits;  ///< Least and most, radians or metres.
  std::optional<RobotMimic> mimic;
  int line = 0;
};

struct RobotDescription {
  std::filesystem::path file;
  std::string name;
  std::vector<RobotLink> links;
  std::vector<RobotJoint> joints;
};

/// Whether it turns or slides: what a value can be given to.
inline bool moves(RobotJointKind kind) {
  return kind == RobotJointKind::revolute || kind == RobotJointKind::continuous ||
         kind == RobotJointKind::prismatic;
}

inline bool slides(const RobotJoint& joint) {
  return joint.kind == RobotJointKind::prismatic;
}

/// How many radians or metres one unit of the assembly file (degree or mm) is.
inline double perFileUnit(const RobotJoint& joint) {
  return slides(joint) ? 0.001 : radFromDeg(1);
}

}  // namespace swingroom
