#include "tests/benchmarks/sweep_times.h"

#include <algorithm>
#include <fstream>
#include <set>
#include <string>

namespace swingroom::bench {

void restartPeakMemory() {
  std::ofstream("/proc/self/clear_refs") << "5";
}

double peakMemoryMb() {
  std::ifstream status("/proc/self/status");
  for (std::string line; std::getline(status, line);) {
    if (line.starts_with("VmHWM:")) return std::stod(line.substr(6)) / 1024;
  }
  return 0;
}

std::uint64_t CheckTimes::nodeTests() const {
  std::uint64_t sum = 0;
  for (const PairTime& pair : pairs) sum += pair.result.nodeTests;
  return sum;
}

std::size_t CheckTimes::countOf(Verdict verdict) const {
  return static_cast<std::size_t>(std::count_if(pairs.begin(), pairs.end(), [&](const auto& pair) {
    return pair.result.verdict == verdict;
  }));
}

std::size_t CheckTimes::comingNearerThan(double mm) const {
  std::set<std::pair<PartId, PartId>> near;
  for (const PairTime& pair : pairs) {
    if (pair.result.gap.upperMm.value_or(mm) < mm) near.emplace(pair.result.a, pair.result.b);
  }
  return near.size();
}

BuiltGeometry builtGeometry(const Assembly& assembly) {
  const CpuWatch watch;
  BuiltGeometry built{prepareGeometry(assembly, 1), 0};
  built.seconds = watch.seconds();
  return built;
}

CheckTimes timeCheck(const SweepSet& set, const AssemblyGeometry& geometry, const Pairs& pairs,
                     const SweepSettings& settings) {
  CheckTimes times;
  times.pairs.resize(set.ways.size() * pairs.size());
  const WorkMonitor monitor;
  const WallWatch wall;
  const CpuWatch cpu;
  parallelFor(times.pairs.size(), settings.threads, [&](std::size_t i) {
    const auto& [a, b] = pairs[i % pairs.size()];
    PairTime& time = times.pairs[i];
    time.way = i / pairs.size();
    const CpuWatch watch;
    time.result =
        checkPair(set.assembly, set.modes, set.ways[time.way], geometry, a, b, settings, monitor);
    time.seconds = watch.seconds();
  });
  times.seconds = settings.threads > 1 ? wall.seconds() : cpu.seconds();
  return times;
}

SweepSettings settingsFor(unsigned threads, bool depths) {
  SweepSettings settings;
  settings.resolutionMm = 0.01;
  settings.threads = threads;
  settings.depths = depths;
  return settings;
}

const char* wordFor(Verdict verdict) {
  constexpr std::array words{"clash", "tight", "loose", "unproven", "clear", "allowed"};
  return words.at(static_cast<std::size_t>(verdict));
}

}  // namespace swingroom::bench
