#pragma once

#include <vector>

#include "core/room/space/swept_target.h"

namespace swingroom {

/// How a flat grid surface is kept off what it must not touch: if every corner of a triangle that has a ball of
/// `ballMm` round it is at least `keptFor(needed)` from some set, all of the triangle is `needed` from it. For
/// the squared distance to a set less |x|^2 is concave.
struct SpaceMargin {
  double ballMm = 0;
  double thinnedMm = 0;  ///< What thinning may shift the surface by.

  double keptFor(double neededMm) const;
};

/// Everything that a part's room has to keep clear of, in the part's frame: other parts by the required gap,
/// those that it is fixed to, and what of a joint's other part is inside the zone, by not touching. Parts whose
/// findings are allowed are none. Contacts excuse nothing here: the room does not offer to touch more than the
/// part itself does.
/// @param ball_P, radiusMm  Holds all that is looked at; what never comes nearer is left out.
std::vector<SweptTarget> roomTargets(const SpaceSubject& subject, const SpaceMargin& margin, const Vector3d& ball_P,
                                     double radiusMm);

/// The part itself, as it passes a frame: that of another part, or the ground's.
/// @returns One target, in whose frame's region `ball_F` is; with a margin against touching.
SweptTarget ownTarget(const SpaceSubject& subject, std::optional<PartId> in, const SpaceMargin& margin,
                      const Vector3d& ball_F, double radiusMm);

/// Everywhere that the part's corners come to in that frame.
Eigen::AlignedBox3d sweptBox(const SpaceSubject& subject, std::optional<PartId> in);

/// How far outside the joint zones of the part, with which its solid counts alone, a point is, mm; negative: in
/// one or not `keptMm` from it.
class ZoneDistance {
 public:
  ZoneDistance(const Assembly& assembly, PartId part, double keptMm);
  double at(const Vector3d& p_P) const;  ///< Infinite without zones.
  bool empty() const { return zones_.empty(); }

 private:
  struct Zone {
    bool isBall = false;
    Vector3d through = Vector3d::Zero(), along = Vector3d::UnitZ();
    JointZone size;
  };
  std::vector<Zone> zones_;
  double keptMm_;
};

}  // namespace swingroom
