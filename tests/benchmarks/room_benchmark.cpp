// How long the room map of one part takes, by its stages: CPU seconds and on the wall, and how much of
// the surface has how much room.
//   bin/room_benchmark [SET:PART...] [--resolution MM] [--threads N] [--piece MM]
#include <CLI/CLI.hpp>
#include <chrono>
#include <cstdio>
#include <ctime>
#include <map>

#include "core/room/room_map.h"
#include "tests/benchmarks/sweep_sets.h"

namespace swingroom::bench {
namespace {

struct RoomWords {
  std::vector<std::string> parts{"40x50k:4", "tug:head", "tug:torso"};
  RoomSettings settings;
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

void measureRoom(const SweepSet& set, const std::string& name, const RoomSettings& settings) {
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
                  words.settings);
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
  app.add_option("--threads", words.settings.threads, "How many threads")->check(CLI::Range(1, 1024));
  CLI11_PARSE(app, argc, argv);
  return measureRooms(words);
}
