#include "core/print/printed/printer_window.h"

namespace swingroom {
namespace {

using Region = std::vector<Eigen::Vector2d>;

Region keptOf(const Region& region, const PrinterLimit& limit) {
  Region kept;
  for (std::size_t i = 0; i < region.size(); ++i) {
    const Eigen::Vector2d& here = region[i];
    const Eigen::Vector2d& next = region[(i + 1) % region.size()];
    const double left = limit.leftAt(here.x(), here.y());
    const double leftNext = limit.leftAt(next.x(), next.y());
    if (left >= 0) kept.push_back(here);
    if ((left >= 0) != (leftNext >= 0))
      kept.push_back(here + left / (left - leftNext) * (next - here));
  }
  return kept;
}

/// @param rate,rest  Of a limit, on the line that is looked along: rate * x + rest >= 0.
struct LineLimit {
  double rate = 0, rest = 0;
  const std::string* what = nullptr;
};

PrinterSpan spanOf(double least, double most, const std::vector<LineLimit>& limits) {
  PrinterSpan span{least, most, "", "", false};
  for (const LineLimit& limit : limits) {
    if (limit.rate == 0) {
      if (limit.rest < 0) return {0, 0, *limit.what, *limit.what, true};
      continue;
    }
    const double at = -limit.rest / limit.rate;
    if (limit.rate > 0 && at > span.from) span.from = at, span.fromLimit = *limit.what;
    if (limit.rate < 0 && at < span.to) span.to = at, span.toLimit = *limit.what;
  }
  span.empty = span.from > span.to;
  return span;
}

}  // namespace

PrinterWindow printerWindow(std::vector<PrinterLimit> limits, double expectedGrowthMm) {
  PrinterWindow window;
  window.limits = std::move(limits);
  window.expectedGrowthMm = expectedGrowthMm;
  window.region = {{kLeastGrowthMm, kLeastScale},
                   {kMostGrowthMm, kLeastScale},
                   {kMostGrowthMm, kMostScale},
                   {kLeastGrowthMm, kMostScale}};
  std::vector<LineLimit> atScaleOne, atExpectedGrowth;
  for (const PrinterLimit& limit : window.limits) {
    window.region = keptOf(window.region, limit);
    atScaleOne.push_back({limit.growth, limit.scale + limit.constant, &limit.what});
    atExpectedGrowth.push_back(
        {limit.scale, limit.growth * expectedGrowthMm + limit.constant, &limit.what});
  }
  window.growthMm = spanOf(kLeastGrowthMm, kMostGrowthMm, atScaleOne);
  window.scale = spanOf(kLeastScale, kMostScale, atExpectedGrowth);
  return window;
}

}  // namespace swingroom
