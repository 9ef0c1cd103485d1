#include "core/files/document/json_value.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "core/base/ensure.h"

namespace swingroom {
namespace {

constexpr std::size_t kWidest = 100;

std::string textInJson(const std::string& text) {
  // Names made in memory may hold bytes that are no UTF-8: such a byte is replaced, not thrown on.
  return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

bool isPlain(const JsonValue& value) {
  return value.kind != JsonValue::Kind::array && value.kind != JsonValue::Kind::object;
}

std::string plainText(const JsonValue& value) {
  switch (value.kind) {
    case JsonValue::Kind::boolean:
      return value.truth ? "true" : "false";
    case JsonValue::Kind::number:
      return value.text;
    case JsonValue::Kind::text:
      return textInJson(value.text);
    default:
      return "null";
  }
}

std::string onOneLine(const JsonValue& value, const char* comma, const char* colon) {
  if (isPlain(value)) return plainText(value);
  std::string text;
  for (const JsonValue& item : value.items) {
    if (!text.empty()) text += comma;
    text += onOneLine(item, comma, colon);
  }
  for (const JsonMember& member : value.members) {
    if (!text.empty()) text += comma;
    text += textInJson(member.key) + colon + onOneLine(member.value, comma, colon);
  }
  return value.kind == JsonValue::Kind::array ? "[" + text + "]" : "{" + text + "}";
}

/// @param column Where the value starts on its line.
void writeIndented(const JsonValue& value, std::size_t depth, std::size_t column,
                   std::string& out) {
  const bool isArray = value.kind == JsonValue::Kind::array;
  if (isPlain(value) || (value.items.empty() && value.members.empty())) {
    out += onOneLine(value, ", ", ": ");
    return;
  }
  if (isArray && std::all_of(value.items.begin(), value.items.end(), isPlain)) {
    const std::string line = onOneLine(value, ", ", ": ");
    if (column + line.size() < kWidest) {
      out += line;
      return;
    }
  }
  const std::string indent(2 * (depth + 1), ' ');
  const char* before = isArray ? "[\n" : "{\n";
  for (const JsonValue& item : value.items) {
    out += before + indent;
    writeIndented(item, depth + 1, indent.size(), out);
    before = ",\n";
  }
  for (const JsonMember& member : value.members) {
    const std::string key = textInJson(member.key) + ": ";
    out += before + indent + key;
    writeIndented(member.value, depth + 1, indent.size() + key.size(), out);
    before = ",\n";
  }
  out += "\n" + std::string(2 * depth, ' ') + (isArray ? "]" : "}");
}

}  // namespace

const JsonValue* JsonValue::find(std::string_view key) const {
  const auto found = std::find_if(members.begin(), members.end(),
                                  [&](const JsonMember& member) { return member.key == key; });
  return found == members.end() ? nullptr : &found->value;
}

JsonValue JsonValue::of(bool truth) {
  JsonValue value;
  value.kind = Kind::boolean;
  value.truth = truth;
  return value;
}

JsonValue JsonValue::of(double number) {
  JsonValue value;
  value.kind = Kind::number;
  value.number = number;
  value.text = numberText(number);
  return value;
}

JsonValue JsonValue::of(std::string text) {
  JsonValue value;
  value.kind = Kind::text;
  value.text = std::move(text);
  return value;
}

JsonValue JsonValue::array(std::vector<JsonValue> items) {
  JsonValue value;
  value.kind = Kind::array;
  value.items = std::move(items);
  return value;
}

JsonValue JsonValue::object() {
  JsonValue value;
  value.kind = Kind::object;
  return value;
}

void JsonValue::add(std::string key, JsonValue value) {
  members.push_back({std::move(key), std::move(value)});
}

std::string compactJson(const JsonValue& value) {
  return onOneLine(value, ",", ":");
}

std::string indentedJson(const JsonValue& value) {
  std::string text;
  writeIndented(value, 0, 0, text);
  return text + "\n";
}

std::string pointerTo(const std::string& pointer, std::string_view key) {
  std::string text = pointer + "/";
  for (const char c : key) {
    if (c == '~') {
      text += "~0";
    } else if (c == '/') {
      text += "~1";
    } else {
      text += c;
    }
  }
  return text;
}

std::string pointerTo(const std::string& pointer, std::size_t index) {
  return pointer + "/" + std::to_string(index);
}

std::string inQuotes(std::string_view text) {
  constexpr std::size_t kLongest = 60;
  std::string shown(text.substr(0, kLongest));
  while (shown.size() < text.size() && !shown.empty() && (text[shown.size()] & 0xC0) == 0x80) {
    shown.pop_back();  // not in the middle of a character
  }
  const bool cut = shown.size() < text.size();
  std::replace_if(
      shown.begin(), shown.end(), [](char c) { return static_cast<unsigned char>(c) < ' '; }, ' ');
  return "\"" + shown + (cut ? "...\"" : "\"");
}

std::string numberText(double number) {
  if (!std::isfinite(number)) throw std::invalid_argument("numberText: not a finite number");
  if (number == 0) return "0";
  // Plain digits as long as they are short.
  const double size = std::abs(number);
  const auto format =
      size >= 1e-6 && size < 1e15 ? std::chars_format::fixed : std::chars_format::scientific;
  std::array<char, 64> digits;
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), number, format);
  SWINGROOM_ENSURE(end.ec == std::errc());
  return {digits.data(), end.ptr};
}

}  // namespace swingroom
