// How long the room map of one part takes, by its stages: CPU seconds and on the wall, and how much of
// the surface has how much room.
//   bin/room_benchmark [SET:PART...] [--resolution MM] [--threads N] [--piece MM] [--growth]
#include <CLI/CLI.hpp>
#include <chrono>
#include <cstdio>
#include <ctime>
#include <map>

#include "core/room/growth.h"
#include "tests/benchmarks/sweep_sets.h"

namespace swingroom::bench {
namespace {

struct RoomWords {
  std::vector<std::string> parts{"40x50k:4", "tug:head", "tug:torso"};
  RoomSettings settings;
  bool growth = false;
};

double cpuSeconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

double wallSeconds() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

void printStage(const RoomMap& map, double cpu, double wall) {
  std::map<RoomState, std::size_t> states;
  double leastMm = map.capMm, widestMm = 0;
  for (const RoomPlace& place : map.places) {
    ++states[place.state];
    if (place.state == RoomState::room) leastMm = std::min(leastMm, place.lowerMm);
    if (place.state == RoomState::room || place.state == RoomState::capped)
      widestMm = std::max(widestMm, place.upperMm - place.lowerMm);
  }
  std::printf("  %5.3f mm  %8.2f CPU s  %8.2f s  widest %.4f  least %.3f  room %zu capped %zu none %zu zone %zu contact %zu\n",
              map.resolutionMm, cpu, wall, widestMm, leastMm, states[RoomState::room], states[RoomState::capped],
              states[RoomState::none], states[RoomState::zone], states[RoomState::contact]);
}

/// By what the places are stopped, the most first found.
void printStops(const SweepSet& set, const RoomMap& map) {
  std::map<std::pair<PartId, std::uint32_t>, std::pair<std::size_t, const RoomPlace*>> stops;
  for (const RoomPlace& place : map.places) {
    if (!place.stop) continue;
    auto& [count, least] = stops[{place.stop->part, place.stop->way}];
    ++count;
    if (!least || place.lowerMm < least->lowerMm) least = &place;
  }
  for (const auto& [by, of] : stops) {
    std::printf("    %7zu places by %s (%s), least %.3f at instant %.4f\n", of.first,
                set.assembly.part(by.first).name.c_str(), set.ways[by.second].name.c_str(), of.second->lowerMm,
                of.second->stop->instant);
  }
}

PartId partOf(const SweepSet& set, const std::string& name) {
  if (const auto part = set.assembly.findPart(name)) return *part;
  return PartId{static_cast<std::size_t>(std::stoul(name))};
}

/// About the part's joint, or its middle.
Vector3d centreOf(const Assembly& assembly, PartId part) {
  for (const Joint& joint : assembly.joints()) {
    if (joint.child == part && joint.type != JointType::fixed)
      return assembly.part(part).X_WP_home.inverse() * joint.through;
  }
  return boundsOf(*assembly.part(part).mesh).center();
}

void printLimit(const char* what, const SweepSet& set, const GrowthLimit& limit, double cpu) {
  std::printf("  %s: %s proven %.5f, broken %.5f by %s, %s, %.2f CPU s\n", what, limit.none ? "none" : "",
              limit.proven, limit.broken.value_or(0), limit.stop ? set.assembly.part(limit.stop->part).name.c_str() : "-",
              limit.done ? "done" : "not done", cpu);
}

void measureGrowth(const SweepSet& set, PartId part, const AssemblyGeometry& geometry, unsigned threads) {
  GrowthSettings settings;
  settings.threads = threads;
  WorkMonitor monitor;
  const RoomSubject subject{set.assembly, set.ways, geometry, part};
  const double start = cpuSeconds();
  const GrowthLimit scale = scaleLimit(subject, centreOf(set.assembly, part), settings, monitor);
  const double between = cpuSeconds();
  const GrowthLimit offset = offsetLimit(subject, settings, monitor);
  printLimit("scale", set, scale, between - start);
  printLimit("offset", set, offset, cpuSeconds() - between);
}

void measureRoom(const SweepSet& set, const std::string& name, const RoomWords& words) {
  const RoomSettings& settings = words.settings;
  const AssemblyGeometry geometry = prepareGeometry(set.assembly, settings.threads);
  const PartId part = partOf(set, name);
  std::printf("%s, %s: %zu triangles among %zu parts, %zu way(s), %u thread(s)\n", set.name.c_str(),
              set.assembly.part(part).name.c_str(), set.assembly.part(part).mesh->triangles.size(),
              set.assembly.parts().size(), set.ways.size(), settings.threads);
  const double cpu = cpuSeconds(), wall = wallSeconds();
  WorkMonitor monitor;
  const RoomMap done = roomMap({set.assembly, set.ways, geometry, part}, settings, monitor,
          [&](const RoomMap& map) { printStage(map, cpuSeconds() - cpu, wallSeconds() - wall); });
  printStops(set, done);
  if (words.growth) measureGrowth(set, part, geometry, settings.threads);
}

SweepSet setNamed(const std::string& name) {
  for (const NamedSet& set : comparedSets()) {
    if (set.name == name) return set.make();
  }
  throw std::runtime_error("no set is called " + name);
}

int measureRooms(const RoomWords& words) {
  std::setvbuf(stdout, nullptr, _IOLBF, 0);
  for (const std::string& asked : words.parts) {
    const std::size_t colon = asked.find(':');
    try {
      measureRoom(setNamed(asked.substr(0, colon)), colon == std::string::npos ? "0" : asked.substr(colon + 1),
                  words);
    } catch (const std::exception& problem) {
      std::printf("%s is left out: %s\n", asked.c_str(), problem.what());
    }
  }
  return 0;
}

}  // namespace
}  // namespace swingroom::bench

int main(int argc, char** argv) {
  using namespace swingroom::bench;
  RoomWords words;
  CLI::App app("How long the room map of a part takes", "room_benchmark");
  app.add_option("SET:PART", words.parts, "Sets of sweep_benchmark and a part of each, by name or number");
  app.add_option("--resolution", words.settings.resolutionMm, "mm")->check(CLI::PositiveNumber);
  app.add_option("--piece", words.settings.pieceMm, "Longest edge of a piece, mm");
  app.add_flag("--growth", words.growth, "The growth limits too");
  app.add_option("--threads", words.settings.threads, "How many threads")->check(CLI::Range(1, 1024));
  CLI11_PARSE(app, argc, argv);
  return measureRooms(words);
}
