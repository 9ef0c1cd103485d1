// How long the walls of parts take, and how thin they are: CPU seconds and on the wall.
//   bin/walls_benchmark [MESH or ASSEMBLY.swing.json]... [--threads N] [--piece MM] [--spots N]
#include <CLI/CLI.hpp>
#include <chrono>
#include <cstdio>
#include <ctime>
#include <numbers>
#include <set>

#include "core/files/loading/load_assembly.h"
#include "core/files/mesh_file.h"
#include "core/print/walls/walls.h"

namespace swingroom::bench {
namespace {

struct WallsWords {
  std::vector<std::string> files;
  ThicknessSettings settings;
  std::size_t spots = 5;
};

double cpuSeconds() {
  return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

double wallSeconds() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

void printMap(const WallMap& map, std::size_t spots) {
  if (!map.judged) {
    std::printf("  not judged: %s\n", map.whyNot.c_str());
    return;
  }
  std::size_t kinds[4] = {0, 0, 0, 0};
  for (const WallPlace& place : map.places) ++kinds[static_cast<std::size_t>(place.kind)];
  std::printf(
      "  %zu pieces of %.2f mm (wall %zu neck %zu edge %zu none %zu), least %.3f .. %.3f, "
      "accuracy %.3f, %zu spots\n",
      map.places.size(), map.pieceMm, kinds[1], kinds[2], kinds[3], kinds[0],
      map.leastLowerMm.value_or(-1), map.leastUpperMm.value_or(-1), map.accuracyMm,
      map.spots.size());
  for (std::size_t i = 0; i < std::min(spots, map.spots.size()); ++i) {
    const ThinSpot& spot = map.spots[i];
    std::printf("    %s %.3f .. %.3f%s at %.2f %.2f %.2f, %.2f mm2, across %.2f\n",
                spot.kind == WallKind::neck ? "neck" : "wall", spot.lowerMm, spot.upperMm,
                spot.free ? " free" : "", spot.at_P.x(), spot.at_P.y(), spot.at_P.z(), spot.areaMm2,
                spot.acrossMm);
  }
  for (const BladeEdge& edge : map.blades)
    std::printf("    blade %.1f mm, %.1f deg at %.2f %.2f %.2f\n", edge.lengthMm,
                edge.openingRad * 180 / std::numbers::pi, edge.at_P.x(), edge.at_P.y(),
                edge.at_P.z());
  for (const PinFigure& pin : map.pins)
    std::printf("    pin %.3f x %.2f at %.2f %.2f %.2f\n", pin.diameterMm, pin.lengthMm,
                pin.middle_P.x(), pin.middle_P.y(), pin.middle_P.z());
}

void measureMesh(const std::string& name, const TriangleMesh& mesh, const WallsWords& words) {
  WorkMonitor monitor;
  const double cpu = cpuSeconds(), wall = wallSeconds();
  const WallMap map = wallsOf(mesh, words.settings, monitor);
  std::printf("%s: %zu triangles, %.2f CPU s, %.2f s\n", name.c_str(), mesh.triangles.size(),
              cpuSeconds() - cpu, wallSeconds() - wall);
  printMap(map, words.spots);
}

void measureAssembly(const std::string& file, const WallsWords& words) {
  auto loaded = loadAssembly(file, MeshReader::besideThisProgram(), words.settings.threads);
  if (!loaded) throw std::runtime_error(toText(loaded.problems().front()));
  const LoadedAssembly& all = loaded.value();
  std::set<const TriangleMesh*> seen;
  for (const Part& part : all.assembly.parts())
    if (part.mesh && seen.insert(part.mesh.get()).second) measureMesh(part.name, *part.mesh, words);
  PrintSubject subject;
  subject.assembly = &all.assembly;
  subject.modes = &all.modes;
  PartPrint print;
  print.process = builtInProcesses().front();
  subject.parts.assign(all.assembly.parts().size(), print);
  subject.threads = words.settings.threads;
  WorkMonitor monitor;
  const double cpu = cpuSeconds(), wall = wallSeconds();
  const WallsResult result = checkWalls(subject, monitor);
  PrintFindings findings;
  addWallFindings(subject, result, findings);
  std::printf("all %zu parts: %.2f CPU s, %.2f s on %u threads; by %s:\n",
              all.assembly.parts().size(), cpuSeconds() - cpu, wallSeconds() - wall,
              subject.threads, print.process.name.c_str());
  for (const PrintFinding& finding : findings)
    std::printf("  %s%s: %s: %s (%.1f %.1f %.1f)\n",
                finding.grade == PrintGrade::hint ? "hint, " : "", wordFor(finding.word),
                subject.part(finding.parts.front()).name.c_str(), finding.sentence.c_str(),
                finding.at_P->x(), finding.at_P->y(), finding.at_P->z());
}

int measureWalls(const WallsWords& words) {
  std::setvbuf(stdout, nullptr, _IOLBF, 0);
  for (const std::string& file : words.files) {
    if (file.ends_with(".json")) {
      measureAssembly(file, words);
      continue;
    }
    auto mesh = MeshReader::besideThisProgram().read(file);
    if (!mesh) throw std::runtime_error(toText(mesh.problems().front()));
    measureMesh(file, mesh.value().mesh, words);
  }
  return 0;
}

}  // namespace
}  // namespace swingroom::bench

int main(int argc, char** argv) {
  using namespace swingroom::bench;
  WallsWords words;
  const std::string samples = std::string(SWINGROOM_SOURCE) + "/sample_assemblies/";
  CLI::App app{"How long the walls of parts take"};
  app.add_option("files", words.files);
  app.add_option("--threads", words.settings.threads);
  app.add_option("--piece", words.settings.pieceMm);
  app.add_option("--spots", words.spots);
  CLI11_PARSE(app, argc, argv);
  if (words.files.empty())
    words.files = {samples + "harbour_tug/harbour_tug.swing.json",
                   samples + "harbour_tug_detailed/harbour_tug_detailed.swing.json"};
  try {
    return measureWalls(words);
  } catch (const std::exception& problem) {
    std::fprintf(stderr, "%s\n", problem.what());
    return 2;
  }
}
