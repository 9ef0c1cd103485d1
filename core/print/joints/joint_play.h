#pragma once

#include <string>
#include <vector>

#include "core/print/joints/fits.h"

namespace swingroom {

/// How far an assembled joint can be off from where it should stand.
struct PlayFigures {
  double radialMm = 0;  ///< Across the axis, any way: half the clearance on the diameter.
  double axialMm = 0;   ///< Along the axis, each way. 0 if nothing was found that stops it there.
  double tiltRad = 0;  ///< Of the axis, any way, until pin or cheeks jam. Ball: 0, it turns anyway.

  bool operator==(const PlayFigures&) const = default;
};

/// Play of one joint.
struct JointPlay {
  JointId joint;
  bool known = false;    ///< Else no fit was found, and all figures are 0.
  bool written = false;  ///< In the file: it wins.
  /// As printed, pins grown and holes shrunk, before any scatter.
  double radialMm = 0, axialMm = 0, tiltRad = 0;
  bool axialKnown = false;  ///< Something stops it along the axis on both sides.
  PlayFigures modelled;     ///< As modelled.
  PlayFigures loosest;      ///< In the loosest print within the scatter.
  /// What it moves and tilts about, assembly frame, every joint at 0.
  Vector3d centre_W = Vector3d::Zero();
  std::string reason;  ///< How it was found, in a clause.

  bool operator==(const JointPlay&) const = default;
};

/// By JointId, one each. A play in the file is the tilt of a hinge or ball, rad, or the travel of a
/// slide or fixed joint, mm, and takes the place of all.
std::vector<JointPlay> jointPlays(const PrintSubject& subject, const FitsResult& fits);

/// How far a pin tilts in its hole before it jams: the root of D = d / cos x + L tan x, in
/// [0, pi/2). 0 for a pin that is not thinner. @param lengthMm  Above 0.
double jamAngleRad(double pinMm, double holeMm, double lengthMm);

/// The same of a lug `lugMm` thick between cheeks `apartMm` apart, whose faces reach `radiusMm`
/// from the axis: the root of W = w cos x + 2 r sin x. 0 if it is not thinner; pi/2 if it never
/// jams.
double cheekAngleRad(double lugMm, double apartMm, double radiusMm);

}  // namespace swingroom
