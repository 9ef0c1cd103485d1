#include "tests/benchmarks/sweep_runs.h"

namespace swingroom::bench {

const std::vector<NamedRun>& ownRuns() {
  static const std::vector<NamedRun> runs{};
  return runs;
}

}  // namespace swingroom::bench
