#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

namespace swingroom {

/// One thing that a print must keep, as a straight line over growth g (mm a side, everywhere) and
/// scale s (1: as modelled): growth * g + scale * s + constant >= 0.
struct PrinterLimit {
  double growth = 0, scale = 0, constant = 0;
  std::string what;  ///< "hip port still turns", "torso and keel stay apart".

  double leftAt(double growthMm, double scaleFactor) const {
    return growth * growthMm + scale * scaleFactor + constant;
  }
  bool operator==(const PrinterLimit&) const = default;
};

/// From and to, and by what each end is set; `open`: the end of what was looked at.
struct PrinterSpan {
  double from = 0, to = 0;
  std::string fromLimit, toLimit;  ///< Empty: nothing limits it within what was looked at.
  bool empty = false;

  bool operator==(const PrinterSpan&) const = default;
};

/// On which printers the assembly passes: all limits are kept.
struct PrinterWindow {
  std::vector<PrinterLimit> limits;
  /// Corners (growth mm a side, scale) of the region within what was looked at, anticlockwise;
  /// empty: there is none.
  std::vector<Eigen::Vector2d> region;
  PrinterSpan growthMm;  ///< At scale 1.
  PrinterSpan scale;     ///< At the growth that is expected.
  double expectedGrowthMm = 0;

  bool operator==(const PrinterWindow&) const = default;
};

/// What is looked at: growth from -0.1 to 0.3 mm a side, scale from 80 to 120 per cent.
constexpr double kLeastGrowthMm = -0.1, kMostGrowthMm = 0.3;
constexpr double kLeastScale = 0.8, kMostScale = 1.2;

/// The region is cut from the rectangle that is looked at, limit by limit (Sutherland and Hodgman,
/// Reentrant polygon clipping, Communications of the ACM 17, 1974).
PrinterWindow printerWindow(std::vector<PrinterLimit> limits, double expectedGrowthMm);

}  // namespace swingroom
