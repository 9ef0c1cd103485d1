#include "core/files/step/check_step.h"

#include <algorithm>

namespace swingroom {
namespace {

constexpr std::string_view kStart = "ISO-10303-21;", kEnd = "END-ISO-10303-21;";

/// What follows blanks, a byte order mark and comments.
std::string_view afterBlanks(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  while (true) {
    text.remove_prefix(std::min(text.find_first_not_of(" \t\r\n"), text.size()));
    if (!text.starts_with("/*")) return text;
    const std::size_t end = text.find("*/", 2);
    if (end == std::string_view::npos) return {};
    text.remove_prefix(end + 2);
  }
}

bool hasSection(std::string_view text, std::string_view name) {
  for (std::size_t at = text.find(name); at != std::string_view::npos; at = text.find(name, at + 1)) {
    // HEADER; and DATA; (or DATA(...); with its parameters), not a word of some text.
    const std::string_view rest = afterBlanks(text.substr(at + name.size()));
    if (rest.starts_with(";") || rest.starts_with("(")) return true;
  }
  return false;
}

}  // namespace

std::optional<Problem> checkStep(std::string_view bytes) {
  if (!afterBlanks(bytes).starts_with(kStart)) {
    if (bytes.starts_with("PK")) {
      return Problem{"", "is not STEP in spite of its ending: its content is a zip archive",
                     "unpack it first"};
    }
    return Problem{"", "is not STEP in spite of its ending", "export it as STEP"};
  }
  // Signatures may follow the end.
  if (bytes.rfind(kEnd) == std::string_view::npos) {
    return Problem{"", "has no " + std::string(kEnd) + " at its end: it is cut off", kExportStepAgain};
  }
  if (!hasSection(bytes, "HEADER") || !hasSection(bytes, "DATA")) {
    return Problem{"", "has no data in it", kExportStepAgain};
  }
  return std::nullopt;
}

}  // namespace swingroom
