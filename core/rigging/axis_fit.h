#pragma once

#include <optional>
#include <vector>

#include "core/rigging/rig_part.h"

namespace swingroom {

/// A stretch of a hole with a pin in it. Along the axis from its point, mm.
struct FitStretch {
  double fromMm = 0, toMm = 0;          ///< Where both are.
  double holeFromMm = 0, holeToMm = 0;  ///< Of the hole.
  double pinFromMm = 0, pinToMm = 0;    ///< Of the pin.
  double pinRadiusMm = 0, holeRadiusMm = 0;
  double leastGapMm = 0;  ///< A side, facets and corners counted, were they on one axis.

  double clearanceMm() const { return 2 * (holeRadiusMm - pinRadiusMm); }
};

/// A pin of one part in the hole or holes of another, as they stand; mm, assembly frame.
struct AxisFit {
  std::size_t pinPart = 0, holePart = 0;
  Vector3d through = Vector3d::Zero();  ///< Of the axis, in the middle of the stretches.
  Vector3d along = Vector3d::UnitZ();   ///< Unit.
  double offAxisMm = 0;                 ///< The hole's axis from the pin's, where it is farthest.
  std::vector<FitStretch> stretches;    ///< Not empty, by `fromMm`.
  /// Something of the hole's part stands into the pin: it is gripped, whatever the clearance.
  bool gripped = false;

  double clearanceMm() const;  ///< The least, on the diameter.
  double leastGapMm() const;
  double lengthMm() const;  ///< Of all stretches together.
};

/// A ball of one part in a socket of another, as they stand; mm, assembly frame.
struct SocketFit {
  std::size_t ballPart = 0, socketPart = 0;
  Vector3d centre = Vector3d::Zero();
  double offCentreMm = 0;
  double ballRadiusMm = 0, socketRadiusMm = 0;
  double leastGapMm = 0;  ///< A side, facets and corners counted.

  double clearanceMm() const { return 2 * (socketRadiusMm - ballRadiusMm); }
};

/// Pins of either part in holes of the other: on one axis within 0.1 mm, up to 1 mm of clearance or
/// 0.3 of interference on the diameter, 0.3 mm long. A ball needs its socket within 0.1 mm.
std::vector<AxisFit> axisFitsBetween(const std::vector<RigPart>& parts, std::size_t a,
                                     std::size_t b);
std::vector<SocketFit> socketFitsBetween(const std::vector<RigPart>& parts, std::size_t a,
                                         std::size_t b);

/// Goes round enough to be a pin; to hold one.
bool isPin(const CylinderFeature& feature);
bool isHole(const CylinderFeature& feature);

/// How far the axis of `other` is from that of `feature` at worst over `from` to `to` along it.
double offAxis(const CylinderFeature& feature, const CylinderFeature& other, double from,
               double to);

}  // namespace swingroom
