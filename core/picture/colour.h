#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <cmath>

#include "core/picture/picture.h"

namespace swingroom {

/// Red, green, blue as displayed, 0 to 1.
using Paint = Eigen::Vector3f;

inline Paint toPaint(const Rgb& colour) {
  return Paint(colour.red, colour.green, colour.blue) / 255.0F;
}

inline Rgb toRgb(const Paint& paint) {
  const auto byte = [](float part) {
    return static_cast<std::uint8_t>(std::lround(std::clamp(part, 0.0F, 1.0F) * 255.0F));
  };
  return {byte(paint.x()), byte(paint.y()), byte(paint.z())};
}

/// `share` of `over` laid on `under`.
inline Paint mix(const Paint& under, const Paint& over, float share) {
  return under + (over - under) * share;
}

// The palette of the program's light theme.
constexpr Rgb kGround{0xF4, 0xF2, 0xEE};
constexpr Rgb kInk{0x20, 0x24, 0x2A};
constexpr Rgb kGridLine{0xDC, 0xD8, 0xD0};
constexpr Rgb kVermillion{0xD5, 0x5E, 0x00};

}  // namespace swingroom
