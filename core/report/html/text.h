#pragma once

#include <string>
#include <string_view>

#include "core/report/words.h"

/// The words of reports as HTML text.
namespace swingroom::html {

using words::bracket;
using words::counted;
using words::fixed;
using words::gapFigure;
using words::jointValue;
using words::millimetres;
using words::point;
using words::shortest;
using words::standsStill;

/// Any text as HTML text or the value of a quoted attribute: valid UTF-8 on one line, markup
/// escaped.
std::string escaped(std::string_view text);

/// A machine-readable figure: <data value="0.291234">0.29 mm</data>; the value as in the JSON
/// report.
std::string data(double value, const std::string& shown);

/// Part names joined, escaped: "<b>a</b> and <b>b</b>".
std::string pairNames(const Assembly& assembly, PartId a, PartId b);

/// Fragment that names a pair's row in the table.
std::string pairAnchor(PartId a, PartId b);

/// As in `words`, escaped.
std::string whereInWay(const CheckReport& report, std::size_t way, double instant);
std::string whereWorst(const CheckReport& report, std::size_t way, const PairResult& pair);

}  // namespace swingroom::html
