#pragma once

#include <QColor>
#include <algorithm>
#include <cmath>

namespace swingroom {

/// Relative luminance and contrast ratio as WCAG 2.2 defines them (w3.org/TR/WCAG22, "relative
/// luminance", "contrast ratio").
inline double linearChannel(int value) {
  const double c = value / 255.0;
  return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

inline double luminance(const QColor& colour) {
  return 0.2126 * linearChannel(colour.red()) + 0.7152 * linearChannel(colour.green()) +
         0.0722 * linearChannel(colour.blue());
}

inline double contrast(const QColor& a, const QColor& b) {
  const double lighter = std::max(luminance(a), luminance(b));
  const double darker = std::min(luminance(a), luminance(b));
  return (lighter + 0.05) / (darker + 0.05);
}

constexpr double kText = 4.5;       // SC 1.4.3.
constexpr double kLargeText = 3.0;  // SC 1.4.3, from 18 pt, or 14 pt bold.
constexpr double kGraphics = 3.0;   // SC 1.4.11.

}  // namespace swingroom
