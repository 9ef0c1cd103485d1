#include "tests/benchmarks/sweep_runs.h"

#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <thread>

#include "core/base/parallel.h"
#include "core/files/mesh_file.h"
#include "core/mesh/health.h"
#include "core/sweep/standing_gaps.h"
#include "tests/benchmarks/sweep_solids.h"
#include "tests/benchmarks/sweep_times.h"
#include "tests/support/mesh_writers.h"
#include "tests/support/temp_folder.h"

namespace swingroom::bench {
namespace {

void printHead(const char* title) {
  std::printf("\n%s\n  %-16s %7s %9s %7s %6s %9s %8s %8s\n", title, "set", "tris", "seconds",
              "factor", "pairs", "Mtests", "clash", "unproven");
}

/// One row of growth: what it takes, and how many times what the row before took.
double printGrowth(const SweepSet& set, double before) {
  const BuiltGeometry built = builtGeometry(set.assembly);
  const CheckTimes times = timeCheck(set, built.geometry, set.ourPairs, settingsFor(1, false));
  std::printf("  %-16s %7zu %9.3f %7.2f %6zu %9.2f %8zu %8zu\n", set.name.c_str(),
              set.assembly.part(PartId{0}).mesh->triangles.size(), times.seconds,
              before > 0 ? times.seconds / before : 1.0, set.ourPairs.size(),
              1e-6 * static_cast<double>(times.nodeTests()), times.countOf(Verdict::clash),
              times.countOf(Verdict::unproven));
  return times.seconds;
}

void growTriangles() {
  printHead("More triangles: the figure of 16 parts, ours without depths");
  double before = 0;
  for (const std::size_t each : {10'000, 50'000, 200'000})
    before = printGrowth(setOf16(each), before);
}

void growParts() {
  printHead("More parts: a crawler of more and more segments, ours without depths");
  double before = 0;
  for (const std::size_t parts : {8, 16, 32, 64})
    before = printGrowth(crawlerSet(parts, 10'000), before);
}

void growPins() {
  for (const auto& make : {roundPinSet, eccentricPinSet}) {
    printHead("More triangles: a pin in its hole, ours without depths");
    double before = 0;
    for (const std::size_t each : {10'000, 50'000, 200'000})
      before = printGrowth(make(each), before);
  }
}

/// Seconds on the wall of `work` done in two processes at once.
template <typename Work>
double secondsOfTwoProcesses(const Work& work) {
  std::fflush(stdout);
  const WallWatch watch;
  for (int i = 0; i < 2; ++i) {
    if (fork() == 0) {
      work();
      _exit(0);
    }
  }
  while (wait(nullptr) > 0) {
  }
  return watch.seconds();
}

/// Two threads share what two processes have each for itself; both have the machine's memory in
/// common.
void compareThreads() {
  const SweepSet set = setOf40(50'000);
  const BuiltGeometry built = builtGeometry(set.assembly);
  const auto check = [&](unsigned threads) {
    timeCheck(set, built.geometry, set.ourPairs, settingsFor(threads, false));
  };
  const double processes = secondsOfTwoProcesses([&] { check(1); });
  const WallWatch watch;
  check(2);
  const double threads = watch.seconds();
  std::printf(
      "\nTwo threads: %s, on the wall\n  two processes, one check each %.2f s; one check on "
      "two threads %.2f s; efficiency %.2f\n",
      set.name.c_str(), processes, threads, processes / (2 * threads));
}

/// How long the check goes on after it was asked to stop, at some moments of its run.
void cancelIt() {
  std::printf("\nCancel: milliseconds until the check is back, on two threads\n");
  for (const SweepSet& set : {tugSet(), setOf40(50'000)}) {
    const BuiltGeometry built = builtGeometry(set.assembly);
    double worst = 0;
    for (int i = 0; i < 20; ++i) {
      WorkMonitor monitor;
      const Sequence& way = set.ways.front();
      std::jthread check([&] { sweep(set.assembly, set.modes, way, built.geometry, settingsFor(2, true), monitor); });
      std::this_thread::sleep_for(std::chrono::milliseconds(20 + 17 * i));
      const WallWatch watch;
      monitor.cancel();
      check.join();
      worst = std::max(worst, 1000 * watch.seconds());
    }
    std::printf("  %-8s worst of 20: %.1f ms\n", set.name.c_str(), worst);
  }
}

Pairs touching(const Pairs& pairs, PartId part) {
  Pairs some;
  std::copy_if(pairs.begin(), pairs.end(), std::back_inserter(some),
               [&](const auto& pair) { return pair.first == part || pair.second == part; });
  return some;
}

/// The set with one part's mesh replaced by one that goes in and out a little more.
SweepSet withChangedPart(const SweepSet& set, PartId changed) {
  AssemblyParts parts{
      set.assembly.name(),     0.3, 0.01, set.assembly.parts(), set.assembly.joints(),
      set.assembly.pairRules()};
  Part& part = parts.parts[changed.index];
  TriangleMesh mesh = *part.mesh;
  for (std::size_t i = 0; i < mesh.vertices.size(); ++i)
    mesh.vertices[i].z() += 0.05 * std::sin(mesh.vertices[i].x());
  part.mesh = std::make_shared<const TriangleMesh>(std::move(mesh));
  SweepSet after = set;
  after.assembly = Assembly(parts);
  return after;
}

void checkAgain() {
  const SweepSet set = setOf40(50'000);
  const BuiltGeometry built = builtGeometry(set.assembly);
  const CheckTimes full = timeCheck(set, built.geometry, set.ourPairs, settingsFor(1, false));
  const PartId changed = set.assembly.findPart("left forearm").value();
  const SweepSet after = withChangedPart(set, changed);
  const CpuWatch watch;
  const AssemblyGeometry geometry = prepareGeometry(after.assembly, 1, built.geometry);
  const double prepared = watch.seconds();
  // A store of results would take the other pairs' from the check before; here they are left out by
  // hand.
  const Pairs pairs = touching(after.ourPairs, changed);
  const CheckTimes again = timeCheck(after, geometry, pairs, settingsFor(1, false));
  std::printf(
      "\nAgain: %s, one part changed\n  all %zu pairs %.2f s; then geometry %.3f s and its "
      "%zu pairs %.2f s: %.1f times quicker\n",
      set.name.c_str(), set.ourPairs.size(), full.seconds, prepared, pairs.size(), again.seconds,
      full.seconds / (prepared + again.seconds));
}

void printLive(const SweepSet& set, bool remember) {
  constexpr int kInstants = 200;
  const StandingGaps gaps(set.assembly, builtGeometry(set.assembly).geometry);
  GapMemory memory;
  double sum = 0, worst = 0, first = 0;
  std::size_t found = 0;
  for (int i = 0; i < kInstants; ++i) {
    const double instant = static_cast<double>(i) / (kInstants - 1);
    const Configuration standing = configurationAt(set.assembly, set.ways.at(0), instant);
    const CpuWatch watch;
    found += gaps.nearPairs(standing, kMattersAboveRequiredMm, remember ? &memory : nullptr).size();
    const double seconds = watch.seconds();
    sum += seconds;
    (i == 0 ? first : worst) = std::max(i == 0 ? first : worst, seconds);
  }
  std::printf(
      "  %-8s %-10s mean %.2f ms, first %.2f ms, worst of the others %.2f ms; %.1f near pairs\n",
      set.name.c_str(), remember ? "remembered" : "afresh", 1e3 * sum / kInstants, 1e3 * first,
      1e3 * worst, static_cast<double>(found) / kInstants);
}

void live() {
  std::printf("\nLive: near pairs at each of 200 instants of the first way\n");
  try {
    const SweepSet tug = tugSet();
    for (const bool remember : {false, true}) printLive(tug, remember);
  } catch (const std::runtime_error& problem) {
    std::printf("  tug is left out: %s\n", problem.what());
  }
  const SweepSet figure = setOf40(50'000);
  for (const bool remember : {false, true}) printLive(figure, remember);
}

std::vector<std::filesystem::path> writeMeshes(const SweepSet& set, const TempFolder& folder,
                                               const std::string& ending) {
  std::vector<std::filesystem::path> files;
  for (const Part& part : set.assembly.parts()) {
    const std::string bytes =
        ending == "stl" ? writers::binaryStl(*part.mesh) : writers::obj(*part.mesh);
    files.push_back(folder.path() / (part.name + "." + ending));
    std::ofstream(files.back(), std::ios::binary) << bytes;
  }
  return files;
}

/// What a command does from the files on: each file in a process of its own.
void printReading(const SweepSet& set, const std::string& ending) {
  const TempFolder folder;
  const auto files = writeMeshes(set, folder, ending);
  const MeshReader reader = MeshReader::besideThisProgram();
  const unsigned threads = defaultThreads();
  AssemblyParts parts{
      set.assembly.name(),     0.3, 0.01, set.assembly.parts(), set.assembly.joints(),
      set.assembly.pairRules()};
  const WallWatch watch;
  parallelFor(files.size(), threads, [&](std::size_t i) {
    parts.parts[i].mesh = std::make_shared<const TriangleMesh>(reader.read(files[i])->mesh);
    healthNotes(*parts.parts[i].mesh, examine(*parts.parts[i].mesh));
  });
  const double read = watch.seconds();
  SweepSet after = set;
  after.assembly = Assembly(parts);
  const AssemblyGeometry geometry = prepareGeometry(after.assembly, threads);
  const double built = watch.seconds();
  timeCheck(after, geometry, after.ourPairs, settingsFor(threads, true));
  const double checked = watch.seconds();
  std::printf("  %-4s reading %.3f s, building %.3f s, checking %.3f s: %.3f s\n", ending.c_str(),
              read, built - read, checked - built, checked);
}

void readFiles() {
  const SweepSet set = setOf16(10'000);
  std::printf("\nFrom the files on: %s on %u threads, on the wall\n", set.name.c_str(),
              defaultThreads());
  for (const char* ending : {"stl", "obj"}) printReading(set, ending);
}

}  // namespace

const std::vector<NamedRun>& ownRuns() {
  static const std::vector<NamedRun> runs{
      {"grow_triangles", "ours on 16 parts of 10, 50 and 200 thousand triangles", growTriangles},
      {"grow_parts", "ours on 8, 16, 32 and 64 parts", growParts},
      {"pin_growth", "ours on both pins at 10, 50 and 200 thousand triangles", growPins},
      {"threads", "40x50k on two threads against two processes", compareThreads},
      {"cancel", "how soon a check that is stopped is back", cancelIt},
      {"again", "40x50k after one part has changed", checkAgain},
      {"live", "near pairs while something is dragged, tug and 40x50k", live},
      {"read", "16x10k from its mesh files on, as a command does it", readFiles},
  };
  return runs;
}

}  // namespace swingroom::bench
