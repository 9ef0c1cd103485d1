#pragma once

#include <optional>
#include <vector>

#include "core/print/joints/fits.h"
#include "core/rigging/rig_part.h"

namespace swingroom {

/// The head of a mushroom peg: past one end of the hole the pin's part ends in something wider than
/// the hole, but not twice as wide, and before the other end it is wider, too, so that the head
/// must have passed. None: no such head, or the pin goes in from its other end.
/// @param parts  As they stand. @param pin  Of shape `pin`, described.
/// An open hole, as a clip's, is not asked.
std::optional<PegHead> pegHeadOf(const std::vector<RigPart>& parts, const FitFigure& pin);

/// The same of a round pin of one part, across a slide, that stands in a slot of the other.
/// @param along_W  Of the slide.
std::optional<PegHead> slotHeadOf(const std::vector<RigPart>& parts, PartId peg, PartId slot,
                                  const Vector3d& along_W);

}  // namespace swingroom
