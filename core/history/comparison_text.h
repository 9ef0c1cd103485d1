#pragma once

#include <string>

#include "core/history/comparison.h"

namespace swingroom {

/// "new finding", "shrank": as the text and the JSON of a comparison have it.
const char* wordFor(Change change);

/// "tight, 0.210 to 0.215 mm, required 0.30 mm", "clash, 0.35 mm deep", "clear, more than 1.800
/// mm". Bounds are rounded outwards.
std::string figureText(const PairFigure& figure);

/// "step 4 head up, instant 0.4300"; empty: not known, or the way stands still.
std::string whereText(const PairFigure& figure);

/// What a person reads on a terminal: what became worse first.
std::string toText(const Comparison& comparison);

/// Schema: resources/comparison.schema.json.
std::string toJson(const Comparison& comparison);

}  // namespace swingroom
