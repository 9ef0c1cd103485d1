#pragma once

#include <optional>
#include <vector>

#include "core/sweep/plan.h"
#include "core/sweep/result.h"

/// The plain way to look at a motion: one query of FCL at each of many fixed instants. It proves
/// nothing between them, but one instant that breaks a proof disproves it.
namespace swingroom::real {

/// Surface gaps of one pair at one instant by FCL, mm; 0: they touch or cross.
struct DenseSample {
  double instant = 0;
  double wholeMm = 0;               ///< Of the whole parts.
  std::optional<double> outsideMm;  ///< Outside the zones of the pair's joint; all, if it has none.
  std::optional<double> insideMm;   ///< Of both surfaces inside the zones.
  std::optional<double> rimMm;      ///< One inside, one outside.
};

/// Evenly spread instants, each step's ends among them, and those that the result tells of: where
/// stretches end, on both sides, and where the least gaps are.
std::vector<double> instantsOf(const Sequence& sequence, int perStep, const PairResult& told);

std::vector<DenseSample> denseRun(const Assembly& assembly, const Sequence& sequence,
                                  const AssemblyGeometry& geometry, PartId a, PartId b,
                                  const std::vector<double>& instants);

/// FCL's gap of two surfaces of parts `a` and `b`.
double gapAt(const Assembly& assembly, const Configuration& configuration, PartId a, PartId b,
             const Surface& surfaceA, const Surface& surfaceB);

}  // namespace swingroom::real
