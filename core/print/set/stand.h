#pragma once

#include <vector>

#include "core/base/work_monitor.h"
#include "core/print/set/bed_fit.h"
#include "core/print/set/stand_shape.h"

namespace swingroom {

/// One way in which a part can stand on the bed, and what that takes. Areas in mm2.
struct BedStand {
  Eigen::Matrix3d R_BP = Eigen::Matrix3d::Identity();  ///< To the bed: x right, y back, z up.
  Vector3d sizeMm = Vector3d::Zero();                  ///< Of its box on the bed.
  bool fits = false;                                   ///< The bed.
  double contactMm2 = 0;                               ///< Of faces that lie on the bed.
  double supportMm2 = 0;  ///< Of faces that need support: flatter than the process allows.
  double bridgedMm2 = 0;  ///< Of such faces that are held at both ends, so that they need none.
  double roughMm2 = 0;    ///< Of faces up to 15 degrees steeper: they print, but rough.
  double scarMm2 = 0;     ///< Of those that need support and that something turns on.
  int pinsUpright = 0;    ///< Pins whose layers lie across them, which breaks more easily.
  int tabsUpright = 0;
  double trappedMm3 = 0;  ///< Resin: what cups hold that are open towards the vat only. About.
  double cost = 0;        ///< The smaller the better: see `standsOf`.

  bool needsSupport() const { return supportMm2 > 0; }
  bool operator==(const BedStand&) const = default;
};

/// Below it support is not worth telling, and is taken as none.
constexpr double kLeastSupportMm2 = 1;

/// Ways to stand, best first, those that fit the bed before all others: on each of its larger flat
/// directions, and on its sides.
///
/// A face needs support where its outward normal is nearer to straight down than the process's
/// overhang angle, it is not on the bed, and it is no bridge: of a connected piece of such faces,
/// what lies between two edges below which the part goes on, at most the process's bridge apart.
///
/// The cost is common practice, not a source's, in mm2 of support: support, four times the scars,
/// half of what prints rough, 5 x diameter x length of an upright pin (less from 4 mm of diameter
/// on, nothing from 10), 3 x width x length of an upright tab, half of the height in mm, what the
/// contact lacks of a fifth of the box's footprint, ten times what the height is above three times
/// the root of contact and half of the support, and with resin half of the mm3 that are
/// trapped.
///
/// @param most  How many are returned.
std::vector<BedStand> standsOf(const StandShape& shape, const PrintProcess& process, std::size_t most,
                            const WorkMonitor& monitor);

/// The same figures of one turn; bridges and cups are looked at.
BedStand standAt(const StandShape& shape, const PrintProcess& process, const Eigen::Matrix3d& R_BP);

}  // namespace swingroom
