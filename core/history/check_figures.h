#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/report/check_report.h"

namespace swingroom {

/// What a check found of one pair in one way, by names: to be held against another check.
/// mm; lower <= true least gap <= upper.
struct PairFigure {
  std::string a, b;
  Verdict verdict = Verdict::unproven;
  double requiredMm = 0;
  double lowerMm = 0;
  std::optional<double> upperMm;  ///< None: farther than matters.
  double depthMm = 0;             ///< Of the deepest overlap; 0: none, or not known.
  std::optional<double> instant;  ///< Of the least gap, or the greatest depth.
  std::size_t stepNumber = 0;     ///< From 1; 0: not known, or the way stands still.
  std::string step;               ///< Empty: not known.

  bool operator==(const PairFigure&) const = default;
};

/// One way of a check. A mode that is looked at on its own starts and ends in itself.
struct WayFigures {
  std::string name, from, to;
  std::vector<PairFigure> pairs;  ///< In file order.

  bool standsStill() const { return from == to && name == from; }
  bool operator==(const WayFigures&) const = default;
};

/// A whole check without its meshes and motion: what `check --json` keeps of it, and the log.
struct CheckFigures {
  std::string assembly;
  double resolutionMm = 0.01;
  std::vector<WayFigures> ways;

  bool operator==(const CheckFigures&) const = default;
};

/// Neither clear nor allowed.
inline bool isFinding(Verdict verdict) {
  return verdict < Verdict::clear;
}

/// By `kVerdicts`: of each pair the worst over all ways.
std::array<std::size_t, 6> countsOf(const CheckFigures& figures);

/// Bounds are rounded outwards to 6 decimals, as the JSON report has them: figures of a check and
/// those read back from its report are the same, step numbers aside.
CheckFigures figuresOf(const CheckReport& report);

/// The word's verdict; none: it is no such word.
std::optional<Verdict> verdictFor(const std::string& word);

}  // namespace swingroom
