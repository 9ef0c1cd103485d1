// Random motions, checked, against dense samples by other poses (kinematics.h), FCL's distances and
// CGAL's exact word near zero. Sampling cannot prove a bound, but one sample that breaks it
// disproves it.
//
//   SWINGROOM_RANDOM_CASES=n     the first n cases, on all cores; 72 on one without
//   SWINGROOM_RANDOM_SEED=n      another suite; the seed is printed
//   SWINGROOM_RANDOM_CASE=n      this case alone
//   SWINGROOM_RANDOM_KIND=name   of those cases, the ones of this kind
//   SWINGROOM_RANDOM_WRITE=dir   writes that case, or those that fail, as assembly files
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <sstream>
#include <string>
#include <vector>

#include "core/base/parallel.h"
#include "core/sweep/sweep.h"
#include "tests/random/claims.h"
#include "tests/random/random_motion.h"

namespace swingroom::random_suite {
namespace {

constexpr std::uint64_t kSuiteSeed = 20261126;
constexpr int kShortSuite = 72;
constexpr auto kKinds = static_cast<std::size_t>(MotionKind::count);

struct Tally {
  int cases = 0, pairs = 0, reference = 0, told = 0, gaps = 0, unproven = 0, failures = 0;
  long samples = 0;
  double widestMm = 0;
  double nearestMm = 1e9;  ///< Least that a sample came above a bracket's lower end.
  int disagreements = 0;

  void add(const PairReport& report) {
    ++pairs;
    reference += report.referenceContact;
    told += report.toldContact;
    gaps += report.gapCompared;
    unproven += report.unproven;
    failures += !report.failures.empty();
    samples += report.samples;
    widestMm = std::max(widestMm, report.widthMm);
    if (report.gapCompared) nearestMm = std::min(nearestMm, report.aboveLowerMm);
    disagreements += report.enginesDisagree;
  }
};

void print(const std::array<Tally, kKinds>& tallies) {
  std::printf("%-8s %6s %6s %10s %8s %6s %9s %9s %9s %8s %8s\n", "motion", "cases", "pairs",
              "reference", "told", "gaps", "widest", "least", "unproven", "failed", "samples");
  std::printf("%-8s %6s %6s %10s %8s %6s %9s %9s %9s %8s %8s\n", "", "", "", "contacts", "contacts",
              "", "mm", "over mm", "", "", "");
  for (std::size_t k = 0; k < kKinds; ++k) {
    const Tally& t = tallies[k];
    if (t.cases == 0) continue;
    std::printf("%-8s %6d %6d %10d %8d %6d %9.5f %9.1e %9d %8d %8ld\n",
                nameOf(static_cast<MotionKind>(k)), t.cases, t.pairs, t.reference, t.told, t.gaps,
                t.widestMm, t.gaps ? t.nearestMm : 0.0, t.unproven, t.failures, t.samples);
  }
  int disagreements = 0;
  for (const Tally& t : tallies) disagreements += t.disagreements;
  if (disagreements) std::printf("FCL and CGAL said different gaps %d times\n", disagreements);
}

/// Of one case: what was seen of each pair, and what was said wrong.
struct Outcome {
  MotionKind kind = MotionKind::hinge;
  std::vector<PairReport> reports;
  std::vector<std::string> failures;
};

SequenceResult checked(const RandomCase& c, const Assembly& assembly) {
  SweepSettings settings;
  settings.resolutionMm = 0.01;
  settings.threads = 1;
  settings.depths = c.number % 10 == 0;  // Depths are not looked at here.
  WorkMonitor monitor;
  return sweep(assembly, c.modes, c.sequence, prepareGeometry(assembly, 1), settings, monitor);
}

Outcome outcomeOf(std::uint64_t suiteSeed, int number) {
  const RandomCase c = randomCase(suiteSeed, number);
  Outcome outcome{c.kind, {}, {}};
  const Assembly assembly = c.assembly();
  for (const PairResult& pair : checked(c, assembly).pairs) {
    outcome.reports.push_back(examine(c, assembly, pair));
    for (const std::string& failure : outcome.reports.back().failures) {
      std::ostringstream text;
      text << "case " << number << " of suite " << suiteSeed << " (seed " << c.seed << "), "
           << nameOf(c.kind) << ": " << c.description << "\n  parts " << pair.a.index + 1 << " and "
           << pair.b.index + 1 << ": " << failure;
      outcome.failures.push_back(text.str());
    }
  }
  const char* folder = std::getenv("SWINGROOM_RANDOM_WRITE");
  if (folder && (!outcome.failures.empty() || std::getenv("SWINGROOM_RANDOM_CASE"))) {
    writeCase(c, std::filesystem::path(folder) / ("case_" + std::to_string(number)));
  }
  return outcome;
}

std::uint64_t numberFrom(const char* variable, std::uint64_t otherwise) {
  const char* text = std::getenv(variable);
  return text ? std::strtoull(text, nullptr, 10) : otherwise;
}

TEST(RandomMotions, NoSampleBreaksWhatTheCheckSays) {
  const std::uint64_t seed = numberFrom("SWINGROOM_RANDOM_SEED", kSuiteSeed);
  const bool isLong = std::getenv("SWINGROOM_RANDOM_CASES") != nullptr;
  std::size_t first = 0, count = numberFrom("SWINGROOM_RANDOM_CASES", kShortSuite);
  if (std::getenv("SWINGROOM_RANDOM_CASE"))
    first = numberFrom("SWINGROOM_RANDOM_CASE", 0), count = 1;
  std::printf("suite %llu, %zu cases from %zu\n", static_cast<unsigned long long>(seed), count,
              first);
  const char* kind = std::getenv("SWINGROOM_RANDOM_KIND");
  const auto isAsked = [&](std::size_t number) {
    return !kind || std::string(kind) == nameOf(kindOf(static_cast<int>(number)));
  };
  std::vector<std::size_t> numbers;
  for (std::size_t number = first; number < first + count; ++number) {
    if (isAsked(number)) numbers.push_back(number);
  }
  count = numbers.size();
  std::vector<Outcome> outcomes(count);
  std::atomic<int> done = 0;
  parallelFor(count, isLong ? defaultThreads() : 1, [&](std::size_t i) {
    outcomes[i] = outcomeOf(seed, static_cast<int>(numbers[i]));
    if (!isLong) return;
    for (const std::string& failure : outcomes[i].failures)
      std::fprintf(stderr, "%s\n", failure.c_str());
    if (const int so = ++done; so % 100 == 0) std::fprintf(stderr, "%d of %zu\n", so, count);
  });
  std::array<Tally, kKinds> tallies;
  for (const Outcome& outcome : outcomes) {
    Tally& tally = tallies[static_cast<std::size_t>(outcome.kind)];
    ++tally.cases;
    for (const PairReport& report : outcome.reports) tally.add(report);
    for (const std::string& failure : outcome.failures) ADD_FAILURE() << failure;
  }
  print(tallies);
}

}  // namespace
}  // namespace swingroom::random_suite
