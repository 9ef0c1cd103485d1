#include "core/report/part_colour.h"

#include <charconv>

namespace swingroom {

Rgb partColour(const std::string& written) {
  constexpr Rgb kUnknown = {0x9A, 0x9F, 0xA6};
  unsigned value = 0;
  if (written.size() != 7 || written[0] != '#') return kUnknown;
  const auto [end, error] = std::from_chars(written.data() + 1, written.data() + 7, value, 16);
  if (error != std::errc() || end != written.data() + 7) return kUnknown;
  return {static_cast<std::uint8_t>(value >> 16), static_cast<std::uint8_t>(value >> 8 & 0xFF),
          static_cast<std::uint8_t>(value & 0xFF)};
}

}  // namespace swingroom
