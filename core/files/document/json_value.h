#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/outcome.h"

namespace swingroom {

struct JsonMember;

/// One JSON value, its members in file order and its numbers with the digits of the file, so that
/// what is not understood can be written again with nothing lost.
struct JsonValue {
  enum class Kind { null, boolean, number, text, array, object };

  Kind kind = Kind::null;
  bool truth = false;
  double number = 0;                ///< Finite.
  std::string text;                 ///< A text, or the digits of a number.
  std::vector<JsonValue> items;     ///< Of an array.
  std::vector<JsonMember> members;  ///< Of an object; no key twice.

  /// The member with that key; null: none.
  const JsonValue* find(std::string_view key) const;

  static JsonValue of(bool truth);
  static JsonValue of(
      double number);  ///< Shortest digits that read back as the same number; -0 is 0.
  static JsonValue of(std::string text);
  static JsonValue of(const char*) = delete;  ///< Would be taken as a truth.
  static JsonValue array(std::vector<JsonValue> items = {});
  static JsonValue object();
  void add(std::string key, JsonValue value);
};

struct JsonMember {
  std::string key;
  JsonValue value;
};

/// Reads JSON text (UTF-8, RFC 8259). A mistake is told in plain words with `where` =
/// NAME:LINE:COLUMN, a key that stands twice in one object with NAME#POINTER. Refuses nesting
/// deeper than 64 and more than a million values: no assembly file comes near, and reading stays
/// quick and small.
Outcome<JsonValue> parseJson(std::string_view text, const std::string& name);

/// On one line, without spaces.
std::string compactJson(const JsonValue& value);

/// The layout of our files: indented by 2, a list of plain values on one line if it ends by column
/// 100, a newline at the end.
std::string indentedJson(const JsonValue& value);

/// `pointer` one level deeper (RFC 6901).
std::string pointerTo(const std::string& pointer, std::string_view key);
std::string pointerTo(const std::string& pointer, std::size_t index);

/// Text in quotes for a message: one line, cut after 60 characters.
std::string inQuotes(std::string_view text);

/// A number as written in our files and messages: the shortest digits that read back as the same
/// number.
/// @throws std::invalid_argument if it is not finite.
std::string numberText(double number);

}  // namespace swingroom
