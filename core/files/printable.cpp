#include "core/files/printable.h"

#include <cstdint>

namespace swingroom {
namespace {

/// Length of the well-formed UTF-8 character at the start of `text`, or 0. Unicode 15, table 3-7.
std::size_t characterLength(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<std::uint8_t>(text[i]); };
  const auto continues = [&](std::size_t i, unsigned low = 0x80, unsigned high = 0xBF) {
    return i < text.size() && byte(i) >= low && byte(i) <= high;
  };
  const unsigned first = byte(0);
  if (first < 0x80) return first >= 0x20 && first != 0x7F ? 1 : 0;
  if (first >= 0xC2 && first <= 0xDF) return continues(1) ? 2 : 0;
  if (first >= 0xE0 && first <= 0xEF) {
    const unsigned low = first == 0xE0 ? 0xA0 : 0x80;
    const unsigned high = first == 0xED ? 0x9F : 0xBF;
    return continues(1, low, high) && continues(2) ? 3 : 0;
  }
  if (first >= 0xF0 && first <= 0xF4) {
    const unsigned low = first == 0xF0 ? 0x90 : 0x80;
    const unsigned high = first == 0xF4 ? 0x8F : 0xBF;
    return continues(1, low, high) && continues(2) && continues(3) ? 4 : 0;
  }
  return 0;
}

}  // namespace

std::string printable(std::string_view text, std::size_t mostBytes) {
  std::string result;
  while (!text.empty()) {
    const std::size_t length = characterLength(text);
    if (result.size() + length > mostBytes) return result + "...";
    result += length > 0 ? text.substr(0, length) : "?";
    text.remove_prefix(length > 0 ? length : 1);
  }
  return result;
}

}  // namespace swingroom
