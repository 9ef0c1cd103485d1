#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/sweep/gap_curve.h"
#include "core/sweep/result.h"

namespace swingroom::html {

/// What a gap curve is drawn from.
struct CurveDrawing {
  std::vector<GapSample> samples;  ///< By instant; not empty.
  std::vector<Stretch> unproven;   ///< Drawn hatched.
  double requiredMm = 0;
  double capMm = 2;  ///< Samples at it mean "this or more".
  std::vector<std::string> steps;
  std::string from, to;          ///< Modes at the ends.
  std::optional<double> needle;  ///< The instant that the card is about.
  std::string title;             ///< What a screen reader says.
};

/// Gap over the instant as one <svg>: zero line, required line, overlap hatched below zero, steps
/// and modes along the way.
std::string gapCurveSvg(const CurveDrawing& drawing);

}  // namespace swingroom::html
