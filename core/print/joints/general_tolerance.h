#pragma once

#include <optional>

namespace swingroom {

/// Plus or minus, mm, of a linear size without a tolerance of its own: ISO 2768-1:1989, Table 1,
/// classes f, m, c and v, sizes of 0.5 to 400 mm. None: outside, or the class does not go there.
/// Of class c below 6 mm reproductions of the table differ; the standard's figures are from memory.
std::optional<double> generalToleranceMm(char toleranceClass, double sizeMm);

}  // namespace swingroom
