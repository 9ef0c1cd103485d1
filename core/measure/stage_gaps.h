#pragma once

#include <vector>

#include "core/files/loading/load_assembly.h"
#include "core/stages/gap_change.h"
#include "core/store/result_store.h"
#include "core/sweep/sweep.h"

namespace swingroom {

/// The check of one part's pairs over all ways: what is kept is looked up, the rest is checked, and
/// kept.
/// @param store  May be null.
/// After a cancel what is returned means nothing.
std::vector<SequenceResult> checkPairsOf(const LoadedAssembly& loaded, PartId part,
                                         const SweepSettings& settings, ResultStore* store,
                                         WorkMonitor& monitor);

/// How the gaps of one part change between its two stages, the others as they are.
/// @returns Why it cannot be said: the assembly cannot be made with one of the two.
Outcome<std::vector<GapChange>> stageGaps(const AssemblyDocument& document,
                                          const std::filesystem::path& file, const std::string& part,
                                          const MeshSource& source, ResultStore* store,
                                          WorkMonitor& monitor);

}  // namespace swingroom
