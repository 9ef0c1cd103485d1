// How fast the check is against FCL used in the plain way, as ratios of one run.
//   bin/sweep_benchmark [SET...] [--list] [--per-pair] [--no-plain] [--plain-steps N] [--threads N]
//   [--budget N]
#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>

#include "tests/benchmarks/plain_check.h"
#include "tests/benchmarks/sweep_runs.h"
#include "tests/benchmarks/sweep_times.h"

namespace swingroom::bench {
namespace {

struct Words {
  std::vector<std::string> sets;
  bool list = false;
  bool perPair = false;
  bool noPlain = false;
  int plainSteps = 0;
  unsigned threads = 1;
  std::uint64_t budget = 0;
};

/// All that is measured of one set.
struct Row {
  std::string name;
  std::size_t parts = 0, pairs = 0, triangles = 0;
  double buildSeconds = 0, checkSeconds = 0, depthsSeconds = 0;
  std::uint64_t nodeTests = 0;
  std::size_t unproven = 0;  ///< Given up: then times of ours are no times of a proof.
  std::optional<PlainTimes> plain;
};

std::size_t meanTriangles(const Assembly& assembly) {
  std::size_t sum = 0, parts = 0;
  for (const Part& part : assembly.parts()) {
    sum += part.mesh ? part.mesh->triangles.size() : 0;
    parts += part.mesh ? 1 : 0;
  }
  return parts > 0 ? sum / parts : 0;
}

void printPairs(const SweepSet& set, CheckTimes times) {
  std::sort(times.pairs.begin(), times.pairs.end(),
            [](const PairTime& x, const PairTime& y) { return x.seconds > y.seconds; });
  std::printf("  %9s %12s  %-8s %9s  pair\n", "seconds", "node tests", "verdict", "least mm");
  for (const PairTime& time : times.pairs) {
    const PairResult& pair = time.result;
    const std::string gap = pair.gap.upperMm ? std::to_string(*pair.gap.upperMm) : "far";
    std::printf("  %9.5f %12llu  %-8s %9s  %s, %s", time.seconds,
                static_cast<unsigned long long>(pair.nodeTests), wordFor(pair.verdict), gap.c_str(),
                set.assembly.part(pair.a).name.c_str(), set.assembly.part(pair.b).name.c_str());
    std::printf(set.ways.size() > 1 ? " (%s)\n" : "\n", set.ways[time.way].name.c_str());
  }
}

void printVerdicts(const CheckTimes& times) {
  std::printf("  verdicts:");
  for (const Verdict verdict : {Verdict::clash, Verdict::tight, Verdict::loose, Verdict::unproven,
                                Verdict::clear, Verdict::allowed})
    std::printf(" %s %zu,", wordFor(verdict), times.countOf(verdict));
  std::printf(" pairs that come under 1.5 mm: %zu\n", times.comingNearerThan(1.5));
}

void printPlain(const Row& row) {
  const PlainTimes& plain = *row.plain;
  std::printf(
      "  FCL plain: build %.3f s, cold %.3f s, warm %.3f s (%d of %d instants measured%s), "
      "%zu pairs meet at them\n",
      plain.buildSeconds, plain.coldSeconds, plain.warmSeconds, plain.measured, kPlainInstants,
      plain.measured < kPlainInstants ? ", scaled" : "", plain.meeting);
  std::printf("  cold / ours %.1f, cold / ours with depths %.1f, warm / ours %.1f\n",
              plain.coldSeconds / row.checkSeconds, plain.coldSeconds / row.depthsSeconds,
              plain.warmSeconds / row.checkSeconds);
}

/// What the command does: the pairs that a joint holds together too, which FCL's peers leave out.
void printWhole(const SweepSet& set, const Words& words) {
  const BuiltGeometry built = builtGeometry(set.assembly);
  const CheckTimes times =
      timeCheck(set, built.geometry, set.ourPairs, settingsFor(words.threads, false));
  std::printf("  ours with the joined pairs too, %zu in all: check %.3f s, %.2f million node tests\n",
              set.ourPairs.size(), times.seconds, 1e-6 * static_cast<double>(times.nodeTests()));
  if (words.perPair) printPairs(set, times);
  printVerdicts(times);
}

Row measure(const SweepSet& set, const Words& words) {
  restartPeakMemory();
  Row row{set.name,
          set.assembly.parts().size(),
          set.plainPairs.size(),
          meanTriangles(set.assembly),
          0,
          0,
          0,
          0,
          0,
          {}};
  std::printf("\n%s: %zu parts of %zu triangles, %zu pairs, %zu way%s\n",
              set.name.c_str(), row.parts, row.triangles, row.pairs,
              set.ways.size(), set.ways.size() == 1 ? "" : "s");
  for (const bool depths : {false, true}) {
    // Made anew for each, as what the first leaves behind would help the second.
    const BuiltGeometry built = builtGeometry(set.assembly);
    SweepSettings settings = settingsFor(words.threads, depths);
    if (words.budget > 0) settings.budget = words.budget;
    const CheckTimes times = timeCheck(set, built.geometry, set.plainPairs, settings);
    (depths ? row.depthsSeconds : row.checkSeconds) = times.seconds;
    std::printf("  ours %s: build %.3f s, check %.3f s, %.2f million node tests\n",
                depths ? "with depths" : "without   ", built.seconds, times.seconds,
                1e-6 * static_cast<double>(times.nodeTests()));
    if (words.perPair) printPairs(set, times);
    if (depths) continue;
    row.nodeTests = times.nodeTests();
    row.unproven = times.countOf(Verdict::unproven);
    row.buildSeconds = built.seconds;
    printVerdicts(times);
  }
  if (set.ourPairs.size() > set.plainPairs.size()) printWhole(set, words);
  std::printf("  peak memory: %.0f MB\n", peakMemoryMb());
  if (!words.noPlain) {
    row.plain = timePlain(set, words.plainSteps > 0 ? words.plainSteps : set.plainInstants);
    printPlain(row);
  }
  return row;
}

void printTable(const std::vector<Row>& rows) {
  std::printf("\n%-14s %5s %7s %6s %9s %9s %8s %9s %9s %9s %7s %7s %7s\n", "set", "parts", "tris",
              "pairs", "measured", "cold s", "warm s", "ours s", "+depths s", "Mtests", "cold/",
              "cold/+d", "warm/");
  for (const Row& row : rows) {
    const PlainTimes plain = row.plain.value_or(PlainTimes{});
    const std::string measured =
        row.plain ? std::to_string(plain.measured) + "/" + std::to_string(kPlainInstants) : "-";
    std::printf("%-14s %5zu %7zu %6zu %9s %9.2f %8.2f %9.3f %9.3f %9.2f %7.1f %7.1f %7.1f\n",
                row.name.c_str(), row.parts, row.triangles, row.pairs, measured.c_str(),
                plain.coldSeconds, plain.warmSeconds, row.checkSeconds, row.depthsSeconds,
                1e-6 * static_cast<double>(row.nodeTests), plain.coldSeconds / row.checkSeconds,
                plain.coldSeconds / row.depthsSeconds, plain.warmSeconds / row.checkSeconds);
    if (row.unproven > 0) {
      std::printf("  ^ %zu pairs were given up at the budget: no ratios of a whole check\n",
                  row.unproven);
    }
  }
}

bool isAsked(const Words& words, const char* name) {
  return words.sets.empty() || std::count(words.sets.begin(), words.sets.end(), name) > 0;
}

std::vector<std::string> knownNames() {
  std::vector<std::string> names;
  for (const NamedSet& set : comparedSets()) names.emplace_back(set.name);
  for (const NamedRun& run : ownRuns()) names.emplace_back(run.name);
  return names;
}

int list() {
  for (const NamedSet& set : comparedSets()) std::printf("%-15s %s\n", set.name, set.what);
  for (const NamedRun& run : ownRuns()) std::printf("%-15s %s\n", run.name, run.what);
  return 0;
}

int runAll(const Words& words) {
  std::setvbuf(stdout, nullptr, _IOLBF, 0);
  std::printf(
      "Ours on %u thread%s, resolution 0.01 mm. Seconds are %s; FCL's are CPU seconds of one "
      "thread.\n",
      words.threads, words.threads == 1 ? "" : "s",
      words.threads == 1 ? "CPU seconds" : "on the wall");
  std::vector<Row> rows;
  for (const NamedSet& named : comparedSets()) {
    if (!isAsked(words, named.name)) continue;
    try {
      rows.push_back(measure(named.make(), words));
    } catch (const std::runtime_error& problem) {
      std::printf("\n%s is left out: %s\n", named.name, problem.what());
    }
  }
  if (!rows.empty()) printTable(rows);
  for (const NamedRun& run : ownRuns()) {
    if (isAsked(words, run.name)) run.run();
  }
  return 0;
}

}  // namespace
}  // namespace swingroom::bench

int main(int argc, char** argv) {
  using namespace swingroom::bench;
  Words words;
  CLI::App app("How fast the check is against FCL used in the plain way", "sweep_benchmark");
  app.add_option("SET", words.sets, "Only these sets and runs (see --list)")
      ->check(CLI::IsMember(knownNames()));
  app.add_flag("--list", words.list, "Say which sets and runs there are");
  app.add_flag("--per-pair", words.perPair, "Each pair of ours, slowest first");
  app.add_flag("--no-plain", words.noPlain, "Leave FCL out");
  app.add_option("--plain-steps", words.plainSteps, "How many of FCL's 720 instants are measured")
      ->check(CLI::Range(40, 720));
  app.add_option("--threads", words.threads, "How many threads for ours")
      ->check(CLI::Range(1, 1024));
  app.add_option("--budget", words.budget, "Most node tests for one pair of surfaces of ours");
  CLI11_PARSE(app, argc, argv);
  return words.list ? list() : runAll(words);
}
