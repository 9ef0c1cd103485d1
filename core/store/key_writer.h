#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <type_traits>

#include "core/base/digest.h"
#include "core/base/transform.h"

namespace swingroom {

/// Adds values to a digest so that different rows of values are different bytes: numbers have their
/// type's width, strings their length before them.
class KeyWriter {
 public:
  template <typename Number>
  requires std::is_arithmetic_v<Number> || std::is_enum_v<Number>
  void add(Number number) {
    bytes_.append(reinterpret_cast<const char*>(&number), sizeof number);
    if (bytes_.size() > 4000) flush();
  }
  void add(const std::string& text) {
    add(text.size());
    bytes_ += text;
  }
  void add(const Digest& digest) {
    for (const std::uint8_t byte : digest) add(byte);
  }
  void add(const Vector3d& vector) {
    for (int i = 0; i < 3; ++i) add(vector[i]);
  }
  void add(const Pose& X) {
    for (int column = 0; column < 4; ++column) add(Vector3d(X.matrix().col(column).head<3>()));
  }
  void add(const std::optional<double>& number) {
    add(number.has_value());
    add(number.value_or(0));
  }

  Digest take() {
    flush();
    return hasher_.take();
  }

 private:
  void flush() {
    hasher_.add(bytes_.data(), bytes_.size());
    bytes_.clear();
  }

  Hasher hasher_;
  std::string bytes_;  ///< Small pieces are gathered: the hash takes large ones better.
};

}  // namespace swingroom
