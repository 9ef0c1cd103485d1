#include "core/room/space/own_solid.h"

#include "core/sweep/sweep.h"

namespace swingroom {

std::vector<PartId> objectionsTo(const SpaceSubject& subject, unsigned threads, const WorkMonitor& monitor) {
  std::vector<PartId> others;
  for (PartId other; other.index < subject.geometry.size(); ++other.index) {
    if (other != subject.part && subject.geometry[other.index]) others.push_back(other);
  }
  SweepSettings settings;
  settings.resolutionMm = subject.assembly.resolutionMm();
  settings.depths = false;
  const std::size_t ways = subject.ways.size();
  std::vector<char> objects(others.size() * ways, 0);
  parallelFor(objects.size(), threads, [&](std::size_t i) {
    const PartId other = others[i / ways];
    const PairResult result =
        checkPair(subject.assembly, subject.modes, subject.ways[i % ways], subject.geometry,
                  std::min(subject.part, other), std::max(subject.part, other), settings, monitor);
    objects[i] = result.verdict == Verdict::clash || result.verdict == Verdict::tight ||
                 result.verdict == Verdict::unproven;
  });
  std::vector<PartId> objecting;
  for (std::size_t o = 0; o < others.size(); ++o) {
    bool any = false;
    for (std::size_t w = 0; w < ways; ++w) any = any || objects[o * ways + w];
    if (any) objecting.push_back(others[o]);
  }
  return objecting;
}

}  // namespace swingroom
