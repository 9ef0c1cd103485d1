#pragma once

#include "app/models/ribbon_row.h"
#include "app/models/way_line.h"

namespace swingroom {

inline WayLine tugWay(int steps) {
  WayLine way{QStringLiteral("Tug"), QStringLiteral("Deckhand"), {}, false};
  for (int s = 0; s < steps; ++s) way.steps.append(QStringLiteral("move %1 of the arms").arg(s));
  return way;
}

/// Row `index` is the pair (index, index + 1000).
inline RibbonRow tugRow(std::size_t index, std::vector<RibbonRun> runs, Verdict verdict) {
  RibbonRow row;
  row.a = {index};
  row.b = {index + 1000};
  row.names = QStringLiteral("forearm_left, boathook");
  row.verdict = verdict;
  row.figure = QStringLiteral("0.20 mm");
  row.runs = std::move(runs);
  return row;
}

inline Ribbon tugRibbon(std::size_t rows) {
  Ribbon ribbon;
  for (std::size_t r = 0; r < rows; ++r) {
    ribbon.rows.push_back(tugRow(r, {{0, 1, RibbonTone::gap, 0.5}}, Verdict::clear));
  }
  return ribbon;
}

}  // namespace swingroom
