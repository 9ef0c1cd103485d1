#pragma once

#include <QString>
#include <optional>
#include <vector>

#include "app/session/stages/stage_compare.h"

namespace swingroom {

/// One sentence of a comparison of two stages.
struct StageLine {
  QString words;
  QString more;                     ///< How good the figure is; empty: nothing more to say.
  std::optional<Vector3d> place_P;    ///< In the part's frame; none: nowhere in particular.
  std::optional<Vector3d> nearest_P;  ///< Where the other stage is nearest to the place.
  std::optional<RoundPlace> round;    ///< The hole or pin that it is about.
};

/// What the comparison of a part's block and detail says so far.
struct StageStory {
  QString title;  ///< "head: block and detail"
  QString doing;  ///< What is under way; empty: all is known.
  std::vector<StageLine> notes;    ///< What is wrong with the detail mesh.
  std::vector<StageLine> surface;  ///< Largest changes, share, volume.
  std::vector<StageLine> rounds;   ///< Holes, pins, balls and sockets.
  QString roundsElse;              ///< Of those that are not listed; or that none changed.
  QString gaps;                    ///< Of the pairs as a whole; empty: not known yet.
};

StageStory stageStoryOf(const StageCompare& compare);

/// "All as block", "5 of 8 parts that have a detail use it": of the whole document; empty: no part
/// has both.
QString stageMixText(const AssemblyDocument& document);

}  // namespace swingroom
