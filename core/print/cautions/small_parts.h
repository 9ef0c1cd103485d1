#pragma once

#include <optional>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// A cylinder with an open rim and a sloped floor: shallow on one side, deep on the other.
struct SmallPartsCylinder {
  double diameterMm = 31.75;
  double shallowMm = 25.4;
  double deepMm = 57.15;

  /// 16 CFR 1501.4: 1.25 in wide, 1 to 2.25 in deep; the inch values govern. The slope of the floor
  /// is from memory.
  static SmallPartsCylinder inches() { return {}; }
  static SmallPartsCylinder metric() { return {31.7, 25.4, 57.1}; }
};

enum class PassAnswer {
  yes,     ///< Found a way in which it does.
  maybe,   ///< Neither found nor excluded.
  no,      ///< Proven for every way.
  unknown  ///< There is no mesh.
};

struct SmallPartAnswer {
  PassAnswer fits = PassAnswer::unknown;
  /// Of `yes`: the part in the cylinder's frame: rim in the plane z = 0, axis z, floor deepest
  /// towards +x. All corners of the mesh were looked at.
  std::optional<Pose> X_CP;
};

/// Whether the part goes wholly into the cylinder in some orientation, without being pressed, as
/// modelled. Directions of the axis and turns about it are halved until each is excluded by a bound
/// or one fits; rigid, by its convex hull.
SmallPartAnswer fitsSmallParts(const TriangleMesh& mesh, const SmallPartsCylinder& cylinder);

/// Whether it passes through a round hole of that diameter in a thin plate, in some orientation,
/// straight.
PassAnswer passesHole(const TriangleMesh& mesh, double diameterMm);

/// Round enough to be taken as a ball: no width of it is below 0.8 of the greatest, and it fills
/// more than half of the ball round it.
bool isBallLike(const TriangleMesh& mesh);

}  // namespace swingroom
