#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/report/check_report.h"

namespace swingroom {

/// The deepest overlap of a pair's stretches, mm; 0 without one.
double deepestMm(const PairResult& pair);

/// One pair in one of the checked ways.
struct Occurrence {
  std::size_t way = 0;   ///< Index into the report's ways.
  std::size_t pair = 0;  ///< Index into that way's pairs.
};

/// A pair that is neither clear nor allowed, in one way or several.
struct Finding {
  PartId a, b;
  Verdict verdict = Verdict::unproven;  ///< The worst.
  std::vector<Occurrence> where;        ///< Worst first; not empty.
};

/// Worst first: by verdict, then the deeper overlap or the smaller gap; else in file order.
std::vector<Finding> findingsOf(const CheckReport& report);

/// What findings have in common.
struct Cause {
  std::string sentence;               ///< Empty: none is seen.
  std::vector<std::size_t> findings;  ///< Indices, worst first.
};

/// Every finding under one cause, in the order of their worst findings. Only what the results say
/// counts: a part that clashes with most others, a joint with overlap and no zone, a joint that
/// brings several overlaps about, a part that several findings of one step share.
std::vector<Cause> causesOf(const CheckReport& report, const std::vector<Finding>& findings);

/// The verdict of each pair over all ways, in the order of the first way's pairs.
std::vector<Verdict> worstOfPairs(const CheckReport& report);

/// Of the pairs that pass and keep a gap, the one with the least; none: there is none.
std::optional<Occurrence> tightestThatPasses(const CheckReport& report);

const PairResult& resultOf(const CheckReport& report, const Occurrence& where);

/// What is wrong with the pair is in the zones of its joint, and not outside of them.
bool isInJoint(const PairResult& pair);

/// The instant of a result's worst: of the greatest depth, or the least gap; else of its first
/// stretch.
double worstInstant(const PairResult& pair);

/// How everything stands at a result's worst, which may be in another order than all together.
Configuration worstStanding(const Assembly& assembly, const Sequence& way, const PairResult& pair);

}  // namespace swingroom
