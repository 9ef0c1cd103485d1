#pragma once

#include <vector>

#include "core/files/loading/load_assembly.h"
#include "core/stages/gap_change.h"
#include "core/store/result_store.h"
#include "core/sweep/sweep.h"

namespace swingroom {

/// The check of some parts' pairs over all ways: what is kept is looked up, the rest is checked, and
/// kept.
/// @param parts  By PartId: a pair is looked at if one of its two is among them.
/// @param store  May be null.
/// After a cancel what is returned means nothing.
std::vector<SequenceResult> checkPairsOf(const LoadedAssembly& loaded, const std::vector<bool>& parts,
                                         const SweepSettings& settings, ResultStore* store,
                                         WorkMonitor& monitor);

/// How gaps change between two mixes of stages of one assembly: of all pairs of parts whose stage in
/// use is another one. The two documents differ in nothing else that the check reads.
/// @returns Why it cannot be said: the assembly cannot be made with one of the two.
Outcome<std::vector<GapChange>> gapsBetween(const AssemblyDocument& before,
                                            const AssemblyDocument& after,
                                            const std::filesystem::path& file,
                                            const MeshSource& source, ResultStore* store,
                                            WorkMonitor& monitor);

}  // namespace swingroom
