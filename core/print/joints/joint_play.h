#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/print/joints/fits.h"

namespace swingroom {

/// How far an assembled joint can be off from where it should stand.
struct PlayFigures {
  double radialMm = 0;  ///< Across the axis, any way: half the clearance on the diameter.
  /// Of the axis, any way, until pin, cheeks or guide jam. Ball: 0, it turns anyway.
  double tiltRad = 0;
  /// Of the travel across, what is left at the greatest tilt: a pin that jams has none, one whose
  /// cheeks stop it before has some. Between, the two go evenly.
  double tiltedRadialMm = 0;
  /// Along the axis, each way, from the middle; none: nothing was found that stops it there.
  std::optional<double> axialMm;

  bool operator==(const PlayFigures&) const = default;
};

enum class PlaySource {
  unknown,  ///< No fit was found: all figures are 0.
  fit,
  written,  ///< In the file: it wins.
};

/// Play of one joint.
struct JointPlay {
  JointId joint;
  PlaySource source = PlaySource::unknown;
  PlayFigures asModelled;
  PlayFigures asPrinted;  ///< Pins grown and holes shrunk, before any scatter.
  PlayFigures loosest;    ///< In the loosest print within the scatter.
  /// About where it tilts, with every joint at 0; none: where the joint's zones or axis say.
  std::optional<Vector3d> middle_W;
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
