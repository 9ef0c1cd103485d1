#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/report/check_report.h"

/// Words and figures as a person reads them. Numbers never follow the locale.
namespace swingroom::html {

/// Any text as HTML text or the value of a quoted attribute: valid UTF-8 on one line, markup
/// escaped.
std::string escaped(std::string_view text);

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

/// A machine-readable figure: <data value="0.291234">0.29 mm</data>; the value as in the JSON
/// report.
std::string data(double value, const std::string& shown);

/// "between 0.287 and 0.292 mm", bounds rounded outwards; "more than 1.800 mm".
std::string bracket(const GapBracket& gap);
std::string bracket(double lowerMm, const std::optional<double>& upperMm);

/// "12.0°", "3.00 mm", "(0.0, 0.0, 14.0)°".
std::string jointValue(const Joint& joint, const JointValue& value);

/// "1 pair", "3 pairs".
std::string counted(std::size_t count, const std::string& one, const std::string& many);

/// Part names joined, escaped: "<b>a</b> and <b>b</b>".
std::string pairNames(const Assembly& assembly, PartId a, PartId b);

/// Fragment that names a pair's row in the table.
std::string pairAnchor(PartId a, PartId b);

/// ", step 3 arms in, instant 0.4300", escaped; in a way that stands still ", in mode NAME".
std::string whereInWay(const CheckReport& report, std::size_t way, double instant);

}  // namespace swingroom::html
