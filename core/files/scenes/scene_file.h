#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/outcome.h"
#include "core/base/transform.h"
#include "core/mesh/features.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// One surface of a file that holds several, as often as it stands there.
struct SceneSurface {
  TriangleMesh mesh;      ///< mm, in its own frame, welded.
  Features features = {};  ///< Those that the file gives exactly; mesh formats give none.
  double deviationMm = 0;  ///< How far the mesh lies from the file's surfaces; 0: it is the surface.
};

/// One surface where it stands.
struct ScenePart {
  std::string name;                              ///< Of this part alone in its file; not empty.
  std::size_t surface = 0;                       ///< Index into `SceneFile::surfaces`.
  std::optional<std::string> colour = {};        ///< "#RRGGBB", if it has exactly one.
  std::optional<std::size_t> node = {};          ///< Index into `SceneFile::nodes`, which move it.
  Eigen::Affine3d X_SP = Eigen::Affine3d::Identity();  ///< Its own frame in the scene's, mm. What
                                                       ///< the file says: may stretch or mirror.
};

/// A frame in the file's tree: T * R * S, or a matrix, against its parent, in the file's own unit
/// and axes.
struct SceneNode {
  std::string name;                   ///< May be empty.
  std::optional<std::size_t> parent;  ///< An earlier one; none: the scene itself.
  Vector3d translation = Vector3d::Zero();
  Eigen::Quaterniond rotation = Eigen::Quaterniond::Identity();  ///< Unit.
  Vector3d scale = Vector3d::Ones();
  std::optional<Eigen::Affine3d> matrix = {};  ///< In place of the three.
};

enum class KeyedQuantity : std::uint8_t { translation, rotation, scale };
enum class KeyedWay : std::uint8_t { linear, step, cubic };

/// Values of one quantity of one node over time.
struct SceneTrack {
  std::size_t node = 0;
  KeyedQuantity quantity = KeyedQuantity::translation;
  KeyedWay way = KeyedWay::linear;
  std::vector<double> timesS;           ///< Rising; not empty.
  /// One a time, of `cubic` three: tangent in, value, tangent out. Rotations x, y, z, w; the others
  /// x, y, z and 0.
  std::vector<Eigen::Vector4d> values;
};

struct SceneAnimation {
  std::string name;  ///< Of this animation alone in its file; not empty.
  std::vector<SceneTrack> tracks;
};

/// A file that may hold many parts.
struct SceneFile {
  std::string unit;          ///< Unit of the file's numbers, e.g. "mm", "m".
  bool unitAssumed = false;  ///< The format has no unit: mm was taken.
  std::vector<SceneSurface> surfaces;
  std::vector<ScenePart> parts;         ///< In the file's order; never empty.
  std::vector<SceneNode> nodes;         ///< Of files with animations only.
  std::vector<SceneAnimation> animations;
  Eigen::Affine3d X_SF = Eigen::Affine3d::Identity();  ///< The file's unit and axes to mm, Z up.
  Problems notes = {};  ///< What was left out, `where` being the place in the file.
};

}  // namespace swingroom
