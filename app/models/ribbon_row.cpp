#include "app/models/ribbon_row.h"

namespace swingroom {

std::optional<double> worstInstant(const RibbonRow& row) {
  for (const RibbonTone tone :
       {RibbonTone::clash, RibbonTone::tight, RibbonTone::loose, RibbonTone::unproven}) {
    for (const RibbonRun& run : row.runs) {
      if (run.tone != tone || (run.from <= 0 && run.to >= 1)) continue;
      // What is loose is so in a mode: there, not near it.
      if (tone == RibbonTone::loose && run.from <= 0) return 0.0;
      if (tone == RibbonTone::loose && run.to >= 1) return 1.0;
      return (run.from + run.to) / 2;
    }
  }
  const RibbonRun* nearest = nullptr;
  for (const RibbonRun& run : row.runs) {
    if (run.tone != RibbonTone::gap || run.nearness <= 0) continue;
    if (!nearest || run.nearness > nearest->nearness) nearest = &run;
  }
  if (!nearest || (nearest->from <= 0 && nearest->to >= 1)) return std::nullopt;
  return (nearest->from + nearest->to) / 2;
}

}  // namespace swingroom
