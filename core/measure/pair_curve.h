#pragma once

#include <vector>

#include "core/base/work_monitor.h"
#include "core/motion/sequence.h"
#include "core/report/figures.h"
#include "core/sweep/part_geometry.h"
#include "core/sweep/result.h"

namespace swingroom {

/// A pair that has been checked over one way. Nothing is null.
struct CheckedPair {
  const Assembly* assembly = nullptr;
  const Sequence* way = nullptr;
  const AssemblyGeometry* geometry = nullptr;
  const PairResult* result = nullptr;
  double resolutionMm = 0.01;
};

/// How closely a curve is looked at.
struct CurveDetail {
  std::size_t samples = 64;  ///< Over the whole way, at least.
  /// At about so many of them depths are measured, which cost a hundred times what gaps do;
  /// 0: overlaps are drawn as 0.
  std::size_t depths = 0;
};

/// The pair's gap over its way: evenly over each step, with every step's ends and the instants that
/// the result names. Empty where nothing comes near, and in a way that stands still.
/// @param monitor  May be null. Once it is cancelled, samples are missing.
std::vector<GapSample> measureCurve(const CheckedPair& checked, const CurveDetail& detail,
                                    const WorkMonitor* monitor = nullptr);

/// On which part the first point of a clash's bracket lies.
DeepPointOn deepPointOf(const CheckedPair& checked);

}  // namespace swingroom
