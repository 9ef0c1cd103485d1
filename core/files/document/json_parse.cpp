#include <algorithm>
#include <nlohmann/json.hpp>

#include "core/base/ensure.h"
#include "core/files/document/json_value.h"

namespace swingroom {
namespace {

constexpr std::size_t kDeepest = 64;
constexpr std::size_t kMostValues = 1'000'000;

/// "LINE:COLUMN" of a byte, columns counted in characters.
std::string lineAndColumn(std::string_view text, std::size_t byte) {
  const std::string_view before = text.substr(0, byte);
  const std::size_t lineStart = before.rfind('\n') + 1;  // npos + 1 is 0
  const auto isCharacter = [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; };
  const auto line = 1 + std::count(before.begin(), before.end(), '\n');
  const auto column = 1 + std::count_if(before.begin() + lineStart, before.end(), isCharacter);
  return std::to_string(line) + ":" + std::to_string(column);
}

struct PlainWords {
  const char* inLibraryMessage;
  const char* what;
  const char* hint;
};

// First match counts.
constexpr PlainWords kPlainWords[] = {
    {"unexpected end of input; expected '[', '{'", "the file is empty or ends too early", ""},
    {"unexpected end of input", "the file ends too early", "a closing bracket or brace is missing"},
    {"missing closing quote", "this text has no closing quote", ""},
    {"number overflow", "this number is too large", ""},
    {"invalid number", "this number is not written as JSON wants it", "as in -0.5 or 1e-3"},
    {"ill-formed UTF-8", "this text is not UTF-8", "save the file as UTF-8"},
    {"control character", "a line break or tab stands inside a text",
     "close the quote, or write \\n or \\t"},
    {"invalid string", "a backslash here makes no sense", "write \\\\ for a backslash"},
    {"; expected end of input", "something follows after the end", "a brace or bracket too many?"},
    {"unexpected '}'; expected string literal", "a key should follow here",
     "a comma too many before it?"},
    {"unexpected ']'; expected '['", "a value should follow here", "a comma too many before it?"},
    {"invalid literal", "this is no JSON",
     "keys and texts need double quotes; comments are not allowed"},
    {"; expected string literal", "a key in double quotes should stand here", ""},
    {"; expected ':'", "a colon should stand here", ""},
    {"; expected '}'", "this does not belong here", "is a comma missing before it?"},
    {"; expected ']'", "this does not belong here", "is a comma missing before it?"},
};

/// Builds the tree. Stops at the first mistake, which is then `problem`.
class TreeBuilder : public nlohmann::json_sax<nlohmann::json> {
 public:
  TreeBuilder(std::string_view text, const std::string& name) : text_(text), name_(name) {}

  Outcome<JsonValue> result() && {
    if (!problems_.empty()) return std::move(problems_);
    return std::move(root_);
  }

  bool null() override { return add({}); }
  bool boolean(bool truth) override { return add(JsonValue::of(truth)); }
  bool number_integer(number_integer_t number) override {
    return addNumber(static_cast<double>(number), std::to_string(number));
  }
  bool number_unsigned(number_unsigned_t number) override {
    return addNumber(static_cast<double>(number), std::to_string(number));
  }
  bool number_float(number_float_t number, const string_t& digits) override {
    return addNumber(number, digits);
  }
  bool string(string_t& text) override { return add(JsonValue::of(std::move(text))); }
  bool binary(binary_t&) override { return false; }
  bool start_object(std::size_t) override { return open(JsonValue::object()); }
  bool start_array(std::size_t) override { return open(JsonValue::array()); }
  bool end_array() override { return close(); }
  bool end_object() override {
    findRepeatedKeys();
    return close();
  }
  bool key(string_t& key) override {
    open_.back()->members.push_back({std::move(key), {}});
    return true;
  }
  bool parse_error(std::size_t position, const std::string& token,
                   const nlohmann::json::exception& mistake) override;

 private:
  bool add(JsonValue value);
  bool addNumber(double number, std::string digits);
  bool open(JsonValue value);
  bool close() {
    open_.pop_back();
    return true;
  }
  bool refuse(const std::string& what) {
    problems_ = {{name_, what, "this is no assembly file"}};
    return false;
  }
  void findRepeatedKeys();
  std::string pointer() const;

  std::string_view text_;
  std::string name_;
  JsonValue root_;
  std::vector<JsonValue*> open_;  ///< From the root; only the last one grows, so the pointers hold.
  std::size_t count_ = 0;
  Problems problems_;
};

bool TreeBuilder::add(JsonValue value) {
  if (++count_ > kMostValues) {
    return refuse("holds more than " + std::to_string(kMostValues) + " values");
  }
  if (open_.empty()) {
    root_ = std::move(value);
  } else if (open_.back()->kind == JsonValue::Kind::array) {
    open_.back()->items.push_back(std::move(value));
  } else {
    open_.back()->members.back().value = std::move(value);
  }
  return true;
}

bool TreeBuilder::addNumber(double number, std::string digits) {
  JsonValue value;
  value.kind = JsonValue::Kind::number;
  value.number = number;
  value.text = std::move(digits);
  return add(std::move(value));
}

bool TreeBuilder::open(JsonValue value) {
  if (open_.size() >= kDeepest) {
    return refuse("is nested deeper than " + std::to_string(kDeepest) + " levels");
  }
  if (!add(std::move(value))) return false;
  JsonValue* opened = &root_;
  if (!open_.empty()) {
    const bool inArray = open_.back()->kind == JsonValue::Kind::array;
    opened = inArray ? &open_.back()->items.back() : &open_.back()->members.back().value;
  }
  open_.push_back(opened);
  return true;
}

void TreeBuilder::findRepeatedKeys() {
  std::vector<std::string_view> keys;
  for (const JsonMember& member : open_.back()->members) keys.push_back(member.key);
  std::sort(keys.begin(), keys.end());
  const auto repeated = std::adjacent_find(keys.begin(), keys.end());
  if (repeated == keys.end()) return;
  problems_.push_back({name_ + "#" + pointer(), "has the key " + inQuotes(*repeated) + " twice",
                       "keep one of them"});
}

std::string TreeBuilder::pointer() const {
  std::string text;
  for (std::size_t i = 0; i + 1 < open_.size(); ++i) {
    const JsonValue& value = *open_[i];
    text = value.kind == JsonValue::Kind::array ? pointerTo(text, value.items.size() - 1)
                                                : pointerTo(text, value.members.back().key);
  }
  return text;
}

bool TreeBuilder::parse_error(std::size_t position, const std::string& token,
                              const nlohmann::json::exception& mistake) {
  const std::string_view message = mistake.what();
  // The parser's position is that of the last byte read; a text is shown from its first quote.
  std::size_t back = 1;
  if (message.find("unexpected string literal") != std::string_view::npos) back = token.size();
  if (message.find("missing closing quote") != std::string_view::npos) back = token.size() + 1;
  const std::size_t byte = position - std::min(position, back);
  const std::string where = name_ + ":" + lineAndColumn(text_, std::min(byte, text_.size()));
  for (const PlainWords& words : kPlainWords) {
    if (message.find(words.inLibraryMessage) == std::string_view::npos) continue;
    problems_.push_back({where, std::string("broken JSON: ") + words.what, words.hint});
    return false;
  }
  problems_.push_back({where, "broken JSON", ""});
  return false;
}

}  // namespace

Outcome<JsonValue> parseJson(std::string_view text, const std::string& name) {
  TreeBuilder builder(text, name);
  const bool finished = nlohmann::json::sax_parse(text, &builder);
  Outcome<JsonValue> result = std::move(builder).result();
  SWINGROOM_ENSURE(finished || !result.ok());
  return result;
}

}  // namespace swingroom
