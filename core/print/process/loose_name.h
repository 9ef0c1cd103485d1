#pragma once

#include <string>
#include <string_view>

namespace swingroom {

/// Small letters and digits of a name, for comparisons that do not mind how it is written.
inline std::string looseName(std::string_view name) {
  std::string plain;
  for (const char c : name) {
    if (c >= 'A' && c <= 'Z')
      plain += static_cast<char>(c - 'A' + 'a');
    else if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
      plain += c;
  }
  return plain;
}

}  // namespace swingroom
