#pragma once

#include <QString>
#include <QStringList>
#include <optional>
#include <vector>

#include "core/sweep/gap_curve.h"
#include "core/sweep/result.h"

namespace swingroom {

/// What the gap curve of the chosen pair is drawn from.
struct CurveDrawing {
  std::vector<GapSample> samples;  ///< By instant; empty while they are being measured.
  std::vector<Stretch> stretches;  ///< Proven ones: clash, tight, unproven.
  double requiredMm = 0;
  double capMm = 1.5;  ///< Samples at it mean "this or more".
  std::size_t steps = 1;
  bool operator==(const CurveDrawing&) const = default;
};

}  // namespace swingroom
