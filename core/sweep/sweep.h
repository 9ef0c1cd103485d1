#pragma once

#include <cstdint>
#include <vector>

#include "core/base/parallel.h"
#include "core/base/work_monitor.h"
#include "core/motion/sequence.h"
#include "core/sweep/part_geometry.h"
#include "core/sweep/result.h"

namespace swingroom {

struct SweepSettings {
  double resolutionMm = 0.01;  ///< Width of the brackets of gaps that matter.
  unsigned threads = defaultThreads();
  /// Most node tests for one pair of surfaces; what is left then is `unproven`. Results do not depend on time.
  std::uint64_t budget = 400'000'000;
  /// Whether the depths of clashes are measured; without, a stretch of clash says only where it is.
  bool depths = true;
};

/// Checks one pair over one sequence. Const from several threads.
/// @throws std::invalid_argument if a part has no geometry.
PairResult checkPair(const Assembly& assembly, const std::vector<Mode>& modes, const Sequence& sequence,
                     const AssemblyGeometry& geometry, PartId a, PartId b, const SweepSettings& settings,
                     const WorkMonitor& monitor);

/// The same with all points in the frame of the first part, whatever their names say: nothing in it depends on
/// where in the world the two stand. What it does depend on: core/store/pair_key.h.
PairResult checkPairAlone(const Assembly& assembly, const std::vector<Mode>& modes, const Sequence& sequence,
                          const AssemblyGeometry& geometry, PartId a, PartId b, const SweepSettings& settings,
                          const WorkMonitor& monitor);

/// Takes the points of such a result from the first part's frame to the world.
void placeInWorld(const Assembly& assembly, const Sequence& sequence, PairResult& result);

/// The check: every pair of parts with meshes, over every instant of the sequence. What it promises is in
/// README.md, "What a check promises". The same result, byte for byte, whatever the number of threads.
/// After a cancel what is returned means nothing.
SequenceResult sweep(const Assembly& assembly, const std::vector<Mode>& modes, const Sequence& sequence,
                     const AssemblyGeometry& geometry, const SweepSettings& settings, WorkMonitor& monitor);

/// All sequences, and for each mode that none of them starts or ends in one that stands still in it, named
/// like it: so that every mode is checked.
std::vector<Sequence> waysToCheck(const std::vector<Mode>& modes, const std::vector<Sequence>& sequences);

}  // namespace swingroom
