#pragma once

#include <QString>
#include <optional>
#include <vector>

#include "core/base/transform.h"

namespace swingroom {

/// Something in the view that can be dragged along one way. World frame; rad (turn) or mm.
struct ViewHandle {
  enum class Kind {
    turn,    ///< Round its axis: a ring of constant size in pixels about `point_W`.
    slide,   ///< Along its axis: its value is the place from `point_W`.
    radius,  ///< Its value is the distance from its axis.
  };

  Kind kind = Kind::turn;
  Vector3d point_W = Vector3d::Zero(), axis_W = Vector3d::UnitZ();  ///< The axis is a unit vector.
  Vector3d zero_W = Vector3d::UnitX();  ///< Turn: where 0 is; unit, square to the axis.
  double value = 0, least = 0, greatest = 0;
  /// The part of the range that is drawn strong; none: not known.
  std::optional<double> freeFrom, freeTo;
  bool stopsBelow = false, stopsAbove = false;  ///< The strong part ends before the range does.
  std::vector<double> clicks;
  bool isGrip = false;  ///< A small one, of something that is edited: no range, no needle.
  QString text;         ///< Stands beside it while it is held.

  bool operator==(const ViewHandle&) const = default;
};

/// As one picture shows it.
struct DrawnHandle {
  ViewHandle handle;
  bool hot = false;  ///< Under the pointer.
  bool held = false;
};

}  // namespace swingroom
