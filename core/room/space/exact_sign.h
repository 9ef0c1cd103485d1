#pragma once

#include <Eigen/Core>
#include <array>
#include <cmath>
#include <cstddef>

namespace swingroom {

/// Signs without rounding for coordinates whose differences are exact in double precision, as those
/// of points in single precision are that are no finer than a millionth of a mm and nearer than a
/// metre (`inFilePrecision`). By sums of doubles that do not overlap: Shewchuk, Discrete &
/// Computational Geometry 18 (1997).
namespace exact {

/// A sum of doubles, kept whole: no more than `kMost` are added.
template <std::size_t kMost>
class Sum {
 public:
  void add(double term) {
    for (std::size_t i = 0; i < count_; ++i) {
      const double sum = term + parts_[i];
      const double ofPart = sum - term;
      parts_[i] = (term - (sum - ofPart)) + (parts_[i] - ofPart);
      term = sum;
    }
    parts_[count_++] = term;
  }
  void addProduct(double a, double b) {
    const double rounded = a * b;
    add(std::fma(a, b, -rounded));
    add(rounded);
  }
  void addProduct(double a, double b, double c) {
    const double rounded = a * b;
    addProduct(std::fma(a, b, -rounded), c);
    addProduct(rounded, c);
  }
  int sign() const {
    for (std::size_t i = count_; i-- > 0;) {
      if (parts_[i] != 0) return parts_[i] > 0 ? 1 : -1;
    }
    return 0;
  }

 private:
  std::array<double, kMost> parts_;
  std::size_t count_ = 0;
};

inline int signOf(double value) {
  return value > 0 ? 1 : value < 0 ? -1 : 0;
}

/// 1 if a, b, c turn counter-clockwise, 0 if they are in line.
inline int turn(const Eigen::Vector2d& a, const Eigen::Vector2d& b, const Eigen::Vector2d& c) {
  const Eigen::Vector2d u = b - a, v = c - a;
  const double left = u.x() * v.y(), right = u.y() * v.x();
  if (std::abs(left - right) > 1e-15 * (std::abs(left) + std::abs(right)))
    return signOf(left - right);
  Sum<4> sum;
  sum.addProduct(u.x(), v.y());
  sum.addProduct(-u.y(), v.x());
  return sum.sign();
}

/// 1 if p, q, r turn counter-clockwise seen from s, 0 if the four are in one plane.
inline int side(const Eigen::Vector3d& p, const Eigen::Vector3d& q, const Eigen::Vector3d& r,
                const Eigen::Vector3d& s) {
  const Eigen::Vector3d u = q - p, v = r - p, w = s - p;
  double rounded = 0, most = 0;
  for (int i = 0; i < 3; ++i) {
    const int j = (i + 1) % 3, k = (i + 2) % 3;
    const double left = v[j] * w[k], right = v[k] * w[j];
    rounded += u[i] * (left - right);
    most += std::abs(u[i]) * (std::abs(left) + std::abs(right));
  }
  if (std::abs(rounded) > 2e-15 * most) return signOf(rounded);
  if (most == 0) return 0;
  Sum<24> sum;
  for (int i = 0; i < 3; ++i) {
    const int j = (i + 1) % 3, k = (i + 2) % 3;
    sum.addProduct(v[j], w[k], u[i]);
    sum.addProduct(-v[k], w[j], u[i]);
  }
  return sum.sign();
}

}  // namespace exact
}  // namespace swingroom
