#pragma once

#include <string>
#include <vector>

#include "core/base/outcome.h"
#include "core/stages/round_change.h"
#include "core/stages/stage_fit.h"
#include "core/stages/wall_change.h"

namespace swingroom {

/// What is wrong with a detail mesh that is held against its part's block.
struct StageFaults {
  StageFit fit;
  bool opened = false;              ///< The block is closed, the detail is not.
  std::size_t openEdges = 0;        ///< Then, of the detail.
  /// The rest is not looked for unless the fit is fine: joint places that moved, turned or changed
  /// size, and holes that were filled.
  std::vector<RoundChange> rounds;
  std::optional<WallChange> thinned;
};

/// The first look, in a tenth of the time of all: closed or not, and the fit.
StageFaults firstFaultsOf(const StageSurface& block, const StageSurface& detail);

/// The rest of what `stageFaultsOf` finds, after the first look.
void addCloserFaults(StageFaults& faults, const StageSurface& block, const StageSurface& detail,
                     const std::vector<JointLine>& joints, unsigned threads = 1);

/// Holds them against each other. Cost of two meshes of 50 000 triangles: some tenths of a second.
StageFaults stageFaultsOf(const StageSurface& block, const StageSurface& detail,
                          const std::vector<JointLine>& joints, unsigned threads = 1);

/// One sentence each; empty: the detail fits its block.
/// @param where  The detail's file, as messages name it.
Problems stageNotes(const std::string& where, const StageFaults& faults);

/// Adds notes that are not there yet. Instances of one file say the same with figures that are a
/// little off: those of the first are kept.
void addStageNotes(Problems& all, const Problems& more);

}  // namespace swingroom
