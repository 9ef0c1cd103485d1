#pragma once

#include <array>
#include <chrono>
#include <ctime>
#include <memory>

#include "core/sweep/sweep.h"
#include "tests/benchmarks/sweep_sets.h"

namespace swingroom::bench {

/// Seconds that this thread has worked since: other work on the machine does not count.
class CpuWatch {
 public:
  double seconds() const { return now() - start_; }

 private:
  static double now() {
    timespec time{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
    return static_cast<double>(time.tv_sec) + 1e-9 * static_cast<double>(time.tv_nsec);
  }
  double start_ = now();
};

/// Seconds on the wall.
class WallWatch {
 public:
  double seconds() const {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count();
  }

 private:
  std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
};

/// Starts the peak of memory anew, where the system lets it; else it is that of the whole run.
void restartPeakMemory();
/// VmHWM of this process, MB.
double peakMemoryMb();

/// One pair's check on the way `way`.
struct PairTime {
  std::size_t way = 0;
  double seconds = 0;  ///< CPU.
  PairResult result;
};

struct CheckTimes {
  double seconds = 0;  ///< CPU of the one thread; of several threads, on the wall.
  std::vector<PairTime> pairs;

  std::uint64_t nodeTests() const;
  std::size_t countOf(Verdict verdict) const;  ///< Of pairs on ways.
  /// Different pairs that somewhere come nearer than `mm`, clashes among them.
  std::size_t comingNearerThan(double mm) const;
};

/// A geometry made anew, and how long that took on one thread.
struct BuiltGeometry {
  AssemblyGeometry geometry;
  double seconds = 0;
};
BuiltGeometry builtGeometry(const Assembly& assembly);

/// Our check of `pairs` on all ways of the set.
CheckTimes timeCheck(const SweepSet& set, const AssemblyGeometry& geometry, const Pairs& pairs,
                     const SweepSettings& settings);

/// The benchmark's settings: resolution 0.01 mm.
SweepSettings settingsFor(unsigned threads, bool depths);

const char* wordFor(Verdict verdict);

}  // namespace swingroom::bench
