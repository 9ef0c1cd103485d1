#include "core/files/document/write_document.h"

#include <stdexcept>

#include "core/files/document/document_fields.h"
#include "core/files/document/json_value.h"
#include "core/files/replace_file.h"

namespace swingroom {
namespace {

/// Turns each type that a document holds into JSON. A class, so that its functions see each other.
struct ValueWriter {
  static JsonValue write(const std::string& text) { return JsonValue::of(text); }
  static JsonValue write(bool truth) { return JsonValue::of(truth); }
  static JsonValue write(double number) { return JsonValue::of(number); }
  static JsonValue write(int number) { return JsonValue::of(static_cast<double>(number)); }
  template <typename Enum>
  requires std::is_enum_v<Enum>
  static JsonValue write(Enum meaning) {
    for (const auto& [one, word] : Words<Enum>::all) {
      if (one == meaning) return JsonValue::of(std::string(word));
    }
    throw std::invalid_argument("writeDocument: an enumeration holds no known value");
  }
  template <typename List>
  requires requires(const List list) { list.data(); }
  static JsonValue write(const List& list) {
    JsonValue array = JsonValue::array();
    for (const auto& item : list) array.items.push_back(write(item));
    return array;
  }
  template <typename Item>
  static JsonValue write(const std::map<std::string, Item>& map) {
    JsonValue object = JsonValue::object();
    for (const auto& [key, item] : map) object.add(key, write(item));
    return object;
  }
  template <typename Item>
  static JsonValue write(const std::optional<Item>& item) {
    return item ? write(*item) : JsonValue();
  }
  template <typename... Kinds>
  static JsonValue write(const std::variant<Kinds...>& value) {
    return std::visit([](const auto& kind) { return write(kind); }, value);
  }
  template <typename Object>
  requires requires(Object object) { object.extra; }
  static JsonValue write(const Object& object);
};

bool holdsNothing(const auto& member) {
  if constexpr (requires { member.has_value(); }) {
    return !member.has_value();
  } else {
    return member.empty();
  }
}

JsonValue fromKeptText(const std::string& text) {
  Outcome<JsonValue> value = parseJson(text, "kept JSON");
  if (!value) throw std::invalid_argument("writeDocument: " + toText(value.problems().front()));
  return std::move(value).value();
}

/// The `fields` of `visit` that writes one object.
class ObjectWriter {
 public:
  explicit ObjectWriter(JsonValue& object) : object_(object) {}

  template <typename Member>
  void required(const char* key, const Member& member) {
    object_.add(key, ValueWriter::write(member));
  }
  template <typename Member>
  void usual(const char* key, const Member& member) {
    required(key, member);
  }
  template <typename Member>
  void nullable(const char* key, const Member& member) {
    required(key, member);
  }
  template <typename Member>
  void optional(const char* key, const Member& member) {
    if (!holdsNothing(member)) required(key, member);
  }
  template <typename Member>
  void unlessDefault(const char* key, const Member& member, const Member& usualValue) {
    if (member != usualValue) required(key, member);
  }
  void json(const char* key, const std::string& text) { object_.add(key, fromKeptText(text)); }

 private:
  JsonValue& object_;
};

template <typename Object>
requires requires(Object object) {
  object.extra;
}
JsonValue ValueWriter::write(const Object& object) {
  JsonValue json = JsonValue::object();
  if constexpr (std::is_same_v<Object, AssemblyDocument>) json.add("swingroom", JsonValue::of(1.0));
  ObjectWriter fields(json);
  visit(fields, object);
  for (const auto& [key, text] : object.extra) json.add(key, fromKeptText(text));
  return json;
}

}  // namespace

std::string writeDocument(const AssemblyDocument& document) {
  return indentedJson(ValueWriter::write(document));
}

std::optional<Problem> saveDocument(const AssemblyDocument& document,
                                    const std::filesystem::path& file) {
  return replaceFile(file, writeDocument(document));
}

}  // namespace swingroom
