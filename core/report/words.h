#pragma once

#include <optional>
#include <string>

#include "core/report/check_report.h"

/// Words and figures as a person reads them, for reports and the window alike. Numbers never follow
/// the locale.
namespace swingroom::words {

/// With so many decimals, half away from zero; -0 is 0.
std::string fixed(double value, int decimals);

/// As few digits as say the number: "0.01".
std::string shortest(double value);

/// "0.30 mm".
std::string millimetres(double mm, int decimals = 2);

/// "(1.00, -2.50, 3.00)".
std::string point(const Vector3d& p, int decimals = 2);

/// A gap beside the required one: two decimals, or as many more (up to five) as tell the two apart.
std::string gapFigure(double gapMm, double requiredMm);

/// "between 0.287 and 0.292 mm", bounds rounded outwards; "more than 1.800 mm".
std::string bracket(const GapBracket& gap);
std::string bracket(double lowerMm, const std::optional<double>& upperMm);

/// "12.0°", "3.00 mm", "(0.0, 0.0, 14.0)°".
std::string jointValue(const Joint& joint, const JointValue& value);

/// `elbow at 40.0°, wrist at 2.00 mm`.
std::string combinationText(const Assembly& assembly, const std::vector<JointStand>& combination);

/// "1 pair", "3 pairs".
std::string counted(std::size_t count, const std::string& one, const std::string& many);

/// The figure of a checked pair and what stands round it: "", "1.24 mm", " deep". Of an allowed
/// overlap it is its depth.
struct Figure {
  std::string before;
  std::optional<double> value;  ///< As the JSON report has it.
  std::string shown;
  std::string after;

  std::string text() const { return before + shown + after; }
};
Figure findingFigure(const Assembly& assembly, const PairResult& pair);

/// A sequence that moves nothing: a mode looked at on its own.
bool standsStill(const Sequence& way);

/// How a way is called: "unfold (folded to reading)", or "mode folded".
std::string wayName(const std::vector<Mode>& modes, const Sequence& way);

/// "step 3 arms in"; of a step without a name of its own "step 3".
/// @param number  From 1.
std::string stepPhrase(std::size_t number, const std::string& name);

/// "step 3 arms in, instant 0.4300"; in a way that stands still "in mode NAME".
std::string whereInWay(const std::vector<Mode>& modes, const Sequence& way, double instant);
/// Where a result's worst is; in another order than all together, the step alone.
std::string whereWorst(const std::vector<Mode>& modes, const Sequence& way, const PairResult& pair);

}  // namespace swingroom::words
