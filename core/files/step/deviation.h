#pragma once

namespace swingroom {

/// How far a mesh may lie from the surface that it is made of unless something else is asked, mm.
inline constexpr double kUsualDeviationMm = 0.01;
/// What may be asked for.
inline constexpr double kLeastDeviationMm = 0.0005, kGreatestDeviationMm = 1;

}  // namespace swingroom
