#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>

namespace swingroom {

/// SHA-256 (FIPS 180-4) of some bytes.
using Digest = std::array<std::uint8_t, 32>;

/// Takes bytes piece by piece. Not safe from several threads.
class Hasher {
 public:
  Hasher();
  Hasher(const Hasher&) = delete;
  Hasher& operator=(const Hasher&) = delete;

  void add(const void* bytes, std::size_t size);
  /// Of all that was added since the last call.
  Digest take();

 private:
  alignas(16) std::array<unsigned char, 128> state_;  ///< The library's, whose header stays out.
};

/// Lower-case hex.
std::string toHex(const Digest& digest);

}  // namespace swingroom
