#include "core/files/scenes/keyed_wish.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "core/files/document/json_value.h"

namespace swingroom {
namespace {

constexpr const char* kHint = "write NAME=SECONDS or NAME=ANIMATION, apart by commas";

std::string trimmedWord(const std::string& text) {
  const std::size_t first = text.find_first_not_of(' ');
  if (first == std::string::npos) return "";
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

std::optional<double> secondsOf(const std::string& text) {
  double seconds = 0;
  const char* end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, seconds);
  if (text.empty() || read.ec != std::errc() || read.ptr != end || !std::isfinite(seconds)) {
    return std::nullopt;
  }
  return seconds;
}

KeyedModeWish wishOf(const std::string& word) {
  const std::size_t equals = word.find('=');
  KeyedModeWish wish;
  wish.name = trimmedWord(word.substr(0, equals));
  if (equals == std::string::npos) {
    wish.animation = wish.name;
    return wish;
  }
  const std::string value = trimmedWord(word.substr(equals + 1));
  if ((wish.timeS = secondsOf(value))) return wish;
  const std::size_t at = value.rfind('@');
  if (at != std::string::npos) wish.timeS = secondsOf(trimmedWord(value.substr(at + 1)));
  wish.animation = wish.timeS ? trimmedWord(value.substr(0, at)) : value;
  return wish;
}

}  // namespace

Outcome<std::vector<KeyedModeWish>> readKeyedWishes(const std::string& typed) {
  std::vector<KeyedModeWish> wishes;
  Problems problems;
  for (std::size_t from = 0; from <= typed.size();) {
    const std::size_t comma = std::min(typed.find(',', from), typed.size());
    const KeyedModeWish wish = wishOf(typed.substr(from, comma - from));
    from = comma + 1;
    const auto same = std::find_if(wishes.begin(), wishes.end(), [&](const KeyedModeWish& other) {
      return other.name == wish.name;
    });
    if (wish.name.empty()) {
      problems.push_back({inQuotes(typed), "has a mode without a name", kHint});
    } else if (wish.animation && wish.animation->empty()) {
      problems.push_back({inQuotes(typed), "does not say when " + wish.name + " is", kHint});
    } else if (same != wishes.end()) {
      problems.push_back({inQuotes(typed), "names two modes " + wish.name, kHint});
    }
    wishes.push_back(wish);
  }
  if (!problems.empty()) return problems;
  return wishes;
}

}  // namespace swingroom
