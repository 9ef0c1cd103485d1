#include "core/sweep/sweep.h"

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

Sequence standingIn(const std::vector<Mode>& modes, ModeId mode) {
  const Mode& standing = modes.at(mode.index);
  return {standing.name,
          mode,
          mode,
          {{standing.name, StepOrder::together, standing.configuration, standing.configuration}}};
}

}  // namespace swingroom
