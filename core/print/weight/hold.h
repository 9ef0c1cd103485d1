#pragma once

#include <limits>
#include <optional>
#include <vector>

#include "core/print/weight/droop_way.h"
#include "core/print/weight/figure_stand.h"
#include "core/print/weight/hung_figure.h"

namespace swingroom {

/// What holds one joint by itself, from its fit. Torques in N mm; of slides forces in N.
struct HoldingFriction {
  bool known = false;  ///< Else nothing says how its parts fit.
  double low = 0, high = 0;
  /// A pin that lies loose in its hole resists a load across it by load x this, N mm a N.
  double armLowMm = 0, armHighMm = 0;

  bool operator==(const HoldingFriction&) const = default;
};

/// What keeps a joint where it stands.
enum class HoldKind {
  level,     ///< Gravity does not turn it, as far as the masses are known.
  floor,     ///< The floor under its parts, without any friction in it.
  stop,      ///< The end of its range, or parts that rest on each other.
  click,     ///< Its click; how strong that is was not computed.
  grip,      ///< Parts of both its sides grip each other; how strong was not computed.
  friction,  ///< Its fit, proven with the low friction.
  mayDroop,  ///< Its fit holds with the high friction and not with the low one.
  droops,    ///< It does not hold with the high friction either.
  unknown,   ///< Its fit is not known, and nothing else holds it: not judged.
};

/// One joint in one mode.
struct JointHold {
  JointId joint;
  PartId parent, child;
  HoldKind kind = HoldKind::level;
  Vector3d at_W = Vector3d::Zero();
  HungMass hung;  ///< What hangs on it, away from what stands on the ground.
  /// Of what hangs on it, about its axis (ball: its centre), N mm; of a slide the force, N.
  double loadLower = 0, load = 0, loadUpper = 0;
  /// The floor or a grip bears part of it: `needed` belongs to one way of sharing among those that
  /// balance, the one that asks least of the joints.
  bool shared = false;
  double needed = 0;                   ///< What the fit has to hold.
  double neededUpper = 0;              ///< With the masses' brackets.
  double holdsLow = 0, holdsHigh = 0;  ///< What it holds; infinite: not known.
  /// Of `droops`, `mayDroop` and `unknown`, where nothing is shared: how far it goes by its weight.
  /// Of `stop` where parts meet before that is seen.
  std::optional<DroopWay> way;

  bool operator==(const JointHold&) const = default;
};

struct HoldQuestion {
  const Assembly* assembly = nullptr;
  const HungFigure* figure = nullptr;
  const Configuration* standing = nullptr;
  std::vector<HoldingFriction> friction;  ///< By JointId.
  /// Pairs that grip each other as they stand.
  std::vector<std::pair<PartId, PartId>> grips;
  /// Joints that parts which rest on each other keep from going to lower and to higher values.
  std::vector<JointId> restsBelow, restsAbove;
  /// Where the floor may press; empty: the figure is held by what stands on the ground.
  std::vector<FloorPoint> floor;
  Vector3d up_W = Vector3d::UnitZ();
};

/// All joints with a parent that move, in order. What the floor and grips give is statically
/// undetermined: of all sets of forces that balance (floor forces that push, at the floor points)
/// that one is taken in which the joints need the least beyond what they hold. If none is needed,
/// the joints hold: the lower-bound theorem of limit analysis. "Holds" is judged with the low
/// friction and a smooth floor, "droops" with the high friction and a rough floor.
std::vector<JointHold> jointHolds(const HoldQuestion& question);

}  // namespace swingroom
