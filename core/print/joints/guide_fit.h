#pragma once

#include "core/print/joints/fits.h"
#include "core/print/joints/joint_sides.h"

namespace swingroom {

/// Clearance of flat guides of a slide: how far the child can go one way across the slide and back
/// the other, least and most over all ways that are stopped on both sides. Faces are looked at in
/// samples (6000 a part) within 1 mm. Its length is that over which both parts reach along the
/// slide; the guide may be shorter. Fills in `joint` if there is such a way.
/// @returns Whether there is.
bool describeGuide(const PrintSubject& subject, const std::vector<RigPart>& parts,
                   const JointStanding& standing, FitFigure& joint);

}  // namespace swingroom
