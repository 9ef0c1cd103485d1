#pragma once

#include <QString>
#include <array>
#include <optional>
#include <vector>

#include "core/base/id.h"
#include "core/sweep/result.h"

namespace swingroom {

/// How a piece of the ribbon is filled.
enum class RibbonTone { gap, tight, clash, loose, unproven, allowed, pending };

/// A piece of a row in one fill, in instants.
struct RibbonRun {
  double from = 0, to = 1;
  RibbonTone tone = RibbonTone::gap;
  /// Of `gap`: 0 at 1.5 mm above the required gap and beyond, 1 at it.
  double nearness = 0;

  bool operator==(const RibbonRun&) const = default;
};

/// One pair's row.
struct RibbonRow {
  PartId a, b;
  QString names;  ///< "arm_left, funnel"
  std::array<QString, 2> partNames;
  std::optional<Verdict> verdict;  ///< None: not yet checked.
  QString figure;                  ///< "1.24 mm deep"; what a tooltip adds to the names.
  std::vector<RibbonRun> runs;     ///< In order of painting: later ones lie on earlier ones.

  bool operator==(const RibbonRow&) const = default;
};

/// Where to look first in a row: the first clash, else tight, loose or unproven run, else the
/// nearest gap. None if no place differs from the others.
std::optional<double> worstInstant(const RibbonRow& row);

/// The ribbon of one way: pairs that matter one by one, worst first, the far ones counted.
struct Ribbon {
  std::vector<RibbonRow> rows;
  std::size_t farPairs = 0;  ///< Clear, and farther than 1.5 mm above the required gap all the way.
  std::size_t waiting = 0;   ///< Pairs not yet checked.

  bool operator==(const Ribbon&) const = default;
};

}  // namespace swingroom
