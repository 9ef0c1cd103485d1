#pragma once

#include <vector>

/// Runs that compare our check with itself; each prints its own table.
namespace swingroom::bench {

struct NamedRun {
  const char* name;
  const char* what;
  void (*run)();
};

const std::vector<NamedRun>& ownRuns();

}  // namespace swingroom::bench
