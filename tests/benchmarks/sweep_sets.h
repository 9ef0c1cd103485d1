#pragma once

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/assembly/assembly.h"
#include "core/motion/sequence.h"

/// Assemblies to be checked for the time that it takes.
namespace swingroom::bench {

using Pairs = std::vector<std::pair<PartId, PartId>>;

struct SweepSet {
  std::string name;
  Assembly assembly;
  std::vector<Mode> modes;
  std::vector<Sequence> ways;
  /// Joined pairs are checked by ours too, as the command does, or by both (a pin in its hole).
  Pairs ourPairs;
  Pairs plainPairs;
  int plainInstants = 720;  ///< Of 720, how many are measured if nothing else is asked for.
};

struct NamedSet {
  const char* name;
  const char* what;
  /// @throws std::runtime_error with one sentence if something that it needs is not here.
  std::function<SweepSet()> make;
};

/// Sets that are compared with FCL, in the order of the table.
const std::vector<NamedSet>& comparedSets();

SweepSet setOf16(std::size_t trianglesEach);
SweepSet setOf40(std::size_t trianglesEach);
SweepSet crawlerSet(std::size_t parts, std::size_t trianglesEach);
SweepSet roundPinSet(std::size_t trianglesEach);
SweepSet eccentricPinSet(std::size_t trianglesEach);
/// @throws std::runtime_error if it does not load.
SweepSet tugSet();

}  // namespace swingroom::bench
