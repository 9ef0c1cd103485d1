#pragma once

#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>

#include "core/report/check_report.h"

/// Figures of the print checks as values of the JSON report. For .cpp files of this folder only.
namespace swingroom::print_json {

using PrintJson = nlohmann::ordered_json;

/// To 6 decimals; null: not a figure.
inline PrintJson number(double value) {
  return std::isfinite(value) ? PrintJson(rounded(value)) : nullptr;
}
inline PrintJson down(double value) {
  return std::isfinite(value) ? PrintJson(roundedDown(value)) : nullptr;
}
inline PrintJson up(double value) {
  return std::isfinite(value) ? PrintJson(roundedUp(value)) : nullptr;
}

inline PrintJson orNull(const std::optional<double>& value) {
  return value ? number(*value) : nullptr;
}

/// {"lower", "upper"}: rounded outwards.
inline PrintJson bracketJson(double lower, double upper) {
  return {{"lower", down(lower)}, {"upper", up(upper)}};
}

/// [x, y, z].
inline PrintJson place(const Vector3d& p) {
  return {number(p.x()), number(p.y()), number(p.z())};
}

/// A turn as a quaternion [w, x, y, z] with w >= 0.
inline PrintJson turnJson(const Eigen::Matrix3d& R) {
  Eigen::Quaterniond q(R);
  q.normalize();
  if (q.w() < 0) q.coeffs() *= -1;
  return {number(q.w()), number(q.x()), number(q.y()), number(q.z())};
}

}  // namespace swingroom::print_json
