#include "core/files/formats/check_ply.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>
#include <cstring>
#include <string>
#include <vector>

#include "core/files/formats/hints.h"

namespace swingroom {
namespace {

// The format as its author describes it: G. Turk, "The PLY Polygon File Format", Stanford, 1994.

struct Type {
  std::string_view name;
  std::string_view newName;
  std::size_t bytes;
  bool whole;
};

constexpr std::array<Type, 8> kTypes = {{{"char", "int8", 1, true},
                                         {"uchar", "uint8", 1, true},
                                         {"short", "int16", 2, true},
                                         {"ushort", "uint16", 2, true},
                                         {"int", "int32", 4, true},
                                         {"uint", "uint32", 4, true},
                                         {"float", "float32", 4, false},
                                         {"double", "float64", 8, false}}};

struct Property {
  const Type* count = nullptr;  ///< Of a list's length; null for a single number.
  const Type* item = nullptr;
};

struct Element {
  std::string name;
  std::uint64_t count = 0;
  std::vector<Property> properties;
};

enum class Encoding { ascii, littleEndian, bigEndian };

struct Header {
  Encoding encoding = Encoding::ascii;
  std::vector<Element> elements;
  std::size_t end = 0;  ///< Where the body starts.
};

const Type* typeNamed(std::string_view name) {
  for (const Type& type : kTypes) {
    if (type.name == name || type.newName == name) return &type;
  }
  return nullptr;
}

template <typename T>
bool parse(std::string_view word, T& value) {
  if (!word.empty() && word.front() == '+') word.remove_prefix(1);
  const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), value);
  // Too small or too large for a double is still a number.
  return (error == std::errc() || error == std::errc::result_out_of_range) &&
         end == word.data() + word.size();
}

/// Cuts the next word off `text`; empty at the end.
std::string_view nextWord(std::string_view& text) {
  constexpr std::string_view kBlanks = " \t\r\n\v\f";
  text.remove_prefix(std::min(text.find_first_not_of(kBlanks), text.size()));
  const std::string_view word = text.substr(0, text.find_first_of(kBlanks));
  text.remove_prefix(word.size());
  return word;
}

std::string quoted(std::string_view word) {
  return std::string("'").append(word).append("'");
}

/// Takes in one line of the header; false if it makes no sense.
bool takeLine(std::string_view line, Header& header) {
  const std::string_view keyword = nextWord(line);
  if (keyword == "ply" || keyword == "comment" || keyword == "obj_info") return true;
  if (keyword == "format") {
    const std::string_view encoding = nextWord(line);
    if (encoding == "binary_little_endian") header.encoding = Encoding::littleEndian;
    if (encoding == "binary_big_endian") header.encoding = Encoding::bigEndian;
    return encoding == "ascii" || header.encoding != Encoding::ascii;
  }
  if (keyword == "element") {
    Element element;
    element.name = nextWord(line);
    const bool sound = parse(nextWord(line), element.count) && !element.name.empty();
    header.elements.push_back(std::move(element));
    return sound;
  }
  if (keyword == "property" && !header.elements.empty()) {
    Property property;
    std::string_view type = nextWord(line);
    const bool list = type == "list";
    if (list) {
      property.count = typeNamed(nextWord(line));
      type = nextWord(line);
    }
    property.item = typeNamed(type);
    header.elements.back().properties.push_back(property);
    return property.item && (!list || (property.count && property.count->whole)) &&
           !nextWord(line).empty();
  }
  return false;
}

Outcome<Header> readHeader(std::string_view bytes) {
  Header header;
  std::size_t start = 0;
  for (int number = 1;; ++number) {
    const std::size_t end = bytes.find('\n', start);
    if (end == std::string_view::npos) {
      return Problem{"", "has no end of its header: it is cut off or damaged", kExportHint};
    }
    std::string_view line = bytes.substr(start, end - start);
    start = end + 1;
    std::string_view rest = line;
    if (nextWord(rest) == "end_header") break;
    if (!takeLine(line, header)) {
      return Problem{"line " + std::to_string(number), "is not understood as part of a PLY header",
                     kExportHint};
    }
  }
  header.end = start;
  return header;
}

/// What follows the header, taken off property by property.
class Body {
 public:
  virtual ~Body() = default;
  /// Empty if the property is there, else what is wrong.
  virtual std::string pass(const Property& property) = 0;
  virtual std::string_view rest() const = 0;
};

class AsciiBody : public Body {
 public:
  explicit AsciiBody(std::string_view text) : text_(text) {}

  std::string pass(const Property& property) override {
    std::uint64_t items = 1;
    if (property.count) {
      const std::string_view word = nextWord(text_);
      if (word.empty()) return "the file ends here: it is cut off";
      if (!parse(word, items)) return quoted(word) + " is not the length of a list";
    }
    for (std::uint64_t i = 0; i < items; ++i) {
      const std::string_view word = nextWord(text_);
      double value;
      if (word.empty()) return "the file ends here: it is cut off";
      if (!parse(word, value)) return quoted(word) + " is not a number";
    }
    return {};
  }
  std::string_view rest() const override { return text_; }

 private:
  std::string_view text_;
};

class BinaryBody : public Body {
 public:
  BinaryBody(std::string_view bytes, bool bigEndian) : bytes_(bytes), bigEndian_(bigEndian) {}

  std::string pass(const Property& property) override {
    std::uint64_t items = 1;
    if (property.count) {
      if (bytes_.size() < property.count->bytes) return "the file ends here: it is cut off";
      items = number(*property.count);
    }
    if (items > bytes_.size() / property.item->bytes) return "the file ends here: it is cut off";
    bytes_.remove_prefix(items * property.item->bytes);
    return {};
  }
  std::string_view rest() const override { return bytes_; }

 private:
  /// The next number. One below zero comes out as one that no file is large enough for.
  std::uint64_t number(const Type& type) {
    std::uint64_t value = 0;
    for (std::size_t i = 0; i < type.bytes; ++i) {
      const std::size_t at = bigEndian_ ? i : type.bytes - 1 - i;
      value = value << 8 | static_cast<std::uint8_t>(bytes_[at]);
    }
    bytes_.remove_prefix(type.bytes);
    return value;
  }

  std::string_view bytes_;
  bool bigEndian_;
};

/// Passes all elements; then nothing may be left.
std::optional<Problem> walk(const Header& header, Body& body) {
  for (const Element& element : header.elements) {
    if (element.properties.empty()) continue;
    for (std::uint64_t i = 0; i < element.count; ++i) {
      for (const Property& property : element.properties) {
        const std::string wrong = body.pass(property);
        if (wrong.empty()) continue;
        return Problem{
            element.name + " " + std::to_string(i + 1) + " of " + std::to_string(element.count),
            wrong, kExportHint};
      }
    }
  }
  constexpr std::string_view kPadding("\0 \t\r\n", 5);
  if (body.rest().find_first_not_of(kPadding) == std::string_view::npos) return std::nullopt;
  return Problem{"", "has more in it than its header says: it is damaged", kExportHint};
}

}  // namespace

std::optional<Problem> checkPly(std::string_view bytes) {
  const Outcome<Header> header = readHeader(bytes);
  if (!header.ok()) return header.problems().front();
  const std::string_view rest = bytes.substr(header->end);
  if (header->encoding == Encoding::ascii) {
    AsciiBody body(rest);
    return walk(*header, body);
  }
  BinaryBody body(rest, header->encoding == Encoding::bigEndian);
  return walk(*header, body);
}

}  // namespace swingroom
