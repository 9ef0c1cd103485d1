#include "core/sweep/sweep.h"

#include <algorithm>

namespace swingroom {

SequenceResult sweep(const Assembly& assembly, const std::vector<Mode>& modes, const Sequence& sequence,
                     const AssemblyGeometry& geometry, const SweepSettings& settings, WorkMonitor& monitor) {
  SequenceResult result{sequence.name, sequence.from, sequence.to, {}};
  std::vector<std::pair<PartId, PartId>> pairs;
  for (std::size_t a = 0; a < geometry.size(); ++a) {
    for (std::size_t b = a + 1; b < geometry.size(); ++b) {
      if (geometry[a] && geometry[b]) pairs.emplace_back(PartId{a}, PartId{b});
    }
  }
  result.pairs.resize(pairs.size());
  monitor.start(pairs.size());
  parallelFor(pairs.size(), settings.threads, [&](std::size_t i) {
    if (monitor.cancelled()) return;
    result.pairs[i] =
        checkPair(assembly, modes, sequence, geometry, pairs[i].first, pairs[i].second, settings, monitor);
    monitor.advance();
  });
  return result;
}

std::vector<Sequence> waysToCheck(const std::vector<Mode>& modes, const std::vector<Sequence>& sequences) {
  std::vector<Sequence> ways = sequences;
  for (std::size_t m = 0; m < modes.size(); ++m) {
    const ModeId mode{m};
    const bool reached = std::any_of(sequences.begin(), sequences.end(), [&](const Sequence& sequence) {
      return sequence.from == mode || sequence.to == mode;
    });
    if (reached) continue;
    const auto& [name, standing] = modes[m];
    ways.push_back({name, mode, mode, {{name, StepOrder::together, standing, standing}}});
  }
  return ways;
}

}  // namespace swingroom
