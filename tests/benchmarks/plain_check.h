#pragma once

#include "tests/benchmarks/sweep_sets.h"

/// The plain way to look at a motion: one distance query of FCL for every pair at each of 720
/// instants. It proves nothing between them.
namespace swingroom::bench {

struct PlainTimes {
  double buildSeconds = 0;
  double coldSeconds = 0;   ///< Of all 720 instants, scaled from those measured.
  double warmSeconds = 0;   ///< The same with each query told the gap of the instant before.
  int measured = 0;         ///< Instants of 720.
  std::size_t meeting = 0;  ///< Pairs seen to touch or cross at one of them.
};

constexpr int kPlainInstants = 720;

/// Of all ways of the set together. CPU seconds of one thread.
/// @param instants  How many of the 720 are measured, evenly spread; 40 at least.
PlainTimes timePlain(const SweepSet& set, int instants);

}  // namespace swingroom::bench
