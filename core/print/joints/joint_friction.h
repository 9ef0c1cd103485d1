#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/print/joints/fits.h"

namespace swingroom {

enum class FrictionModel {
  unknown,  ///< No fit was found.
  none,     ///< Clearance: it holds nothing by itself.
  press,    ///< Thick ring on a pin.
  /// Lug between cheeks that squeeze it as printed, its pin loose. Low: each cheek bends as a
  /// cantilever as wide and as long as the faces' diameter; high: nothing bends, lug and cheeks are
  /// pressed together.
  clamp,
  ball,  ///< Thick ring round the band of a ball.
};

/// What turning a joint by hand, or its load, has to overcome; as printed and fresh: plastics
/// creep, so it is an upper bound for later.
struct JointFriction {
  JointId joint;
  FrictionModel model = FrictionModel::unknown;
  double torqueLowNmm = 0;   ///< As printed before any scatter, with the low friction.
  double torqueHighNmm = 0;  ///< The same with the high friction.
  double tightestNmm = 0;    ///< High friction in the tightest print within the scatter.
  /// A pin that lies loose in its hole resists by the load across it times this, N mm a N, with low
  /// and high friction: not enough to hold a limb whose weight is farther out than that.
  double armLowMm = 0, armHighMm = 0;
  double pressureMPa = 0;   ///< Between the faces.
  double hubStressMPa = 0;  ///< Tension round the hole at its wall.
  std::string reason;

  bool operator==(const JointFriction&) const = default;
};

/// Torque of a lug that two cheeks squeeze by `overlapMm` together, on both of its faces, N mm.
struct ClampTorque {
  double bendingNmm = 0;  ///< If the cheeks bend; run in.
  double rigidNmm = 0;    ///< If nothing bends; new.
};
ClampTorque clampTorque(const AxialStop& stop, double overlapMm, double modulusMPa,
                        double frictionLow, double frictionHigh);

/// By JointId, one each. Of slides `torque...` is 0 and the model none or unknown.
std::vector<JointFriction> jointFrictions(const PrintSubject& subject, const FitsResult& fits);

}  // namespace swingroom
