#include "core/files/document/read_document.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <system_error>

#include "core/files/document/document_fields.h"
#include "core/files/document/json_value.h"

namespace swingroom {
namespace {

using Kind = JsonValue::Kind;

constexpr std::uintmax_t kLargestFileBytes = 64u << 20;
constexpr double kLargestNumber = 1e7;

const char* nameOf(Kind kind) {
  constexpr const char* kNames[] = {"null",   "true or false", "a number",
                                    "a text", "a list",        "an object"};
  return kNames[static_cast<std::size_t>(kind)];
}

/// Reads one value of each type that a document holds. On bad form `out` is left alone.
class FormReader {
 public:
  explicit FormReader(DocumentProblems& problems) : problems_(problems) {}

  DocumentProblems& problems() { return problems_; }

  void read(const JsonValue& value, const std::string& pointer, std::string& out) {
    if (isA(Kind::text, value, pointer)) out = value.text;
  }
  void read(const JsonValue& value, const std::string& pointer, bool& out) {
    if (isA(Kind::boolean, value, pointer)) out = value.truth;
  }
  void read(const JsonValue& value, const std::string& pointer, double& out) {
    if (!isA(Kind::number, value, pointer)) return;
    if (std::abs(value.number) > kLargestNumber) {
      problems_.badForm(pointer, "is " + value.text.substr(0, 40) + ", which is no sensible size",
                        "the largest is 10000000");
      return;
    }
    out = value.number;
  }
  void read(const JsonValue& value, const std::string& pointer, int& out) {
    double number = out;
    read(value, pointer, number);
    if (number != std::floor(number)) return problems_.badForm(pointer, "must be a whole number");
    out = static_cast<int>(number);
  }
  template <typename Enum>
  requires std::is_enum_v<Enum>
  void read(const JsonValue& value, const std::string& pointer, Enum& out) {
    if (!isA(Kind::text, value, pointer)) return;
    std::vector<std::string> known;
    for (const auto& [meaning, word] : Words<Enum>::all) {
      if (value.text == word) {
        out = meaning;
        return;
      }
      known.push_back(word);
    }
    problems_.badForm(pointer,
                      "is " + inQuotes(value.text) + ", but must be one of " + listed(known),
                      didYouMean(value.text, known));
  }
  template <typename Item, std::size_t N>
  void read(const JsonValue& value, const std::string& pointer, std::array<Item, N>& out) {
    if (!isA(Kind::array, value, pointer)) return;
    if (value.items.size() != N) {
      return problems_.badForm(pointer, "must hold " + std::to_string(N) + " values, but holds " +
                                            std::to_string(value.items.size()));
    }
    for (std::size_t i = 0; i < N; ++i) read(value.items[i], pointerTo(pointer, i), out[i]);
  }
  template <typename Item>
  void read(const JsonValue& value, const std::string& pointer, std::vector<Item>& out) {
    if (!isA(Kind::array, value, pointer)) return;
    out.assign(value.items.size(), Item{});
    for (std::size_t i = 0; i < out.size(); ++i)
      read(value.items[i], pointerTo(pointer, i), out[i]);
  }
  template <typename Item>
  void read(const JsonValue& value, const std::string& pointer, std::map<std::string, Item>& out) {
    if (!isA(Kind::object, value, pointer)) return;
    for (const JsonMember& member : value.members) {
      read(member.value, pointerTo(pointer, member.key), out[member.key]);
    }
  }
  template <typename Item>
  void read(const JsonValue& value, const std::string& pointer, std::optional<Item>& out) {
    read(value, pointer, out.emplace());
  }
  void read(const JsonValue& value, const std::string& pointer, DocumentValue& out) {
    if (value.kind == Kind::array) return read(value, pointer, out.emplace<ThreeNumbers>());
    read(value, pointer, out.emplace<double>());
  }
  void read(const JsonValue& value, const std::string& pointer, DocumentRange& out) {
    if (value.kind == Kind::object) return read(value, pointer, out.emplace<DocumentBallRange>());
    read(value, pointer, out.emplace<TwoNumbers>());
  }
  template <typename Object>
  requires requires(Object object) { object.extra; }
  void read(const JsonValue& value, const std::string& pointer, Object& out);

  bool isA(Kind kind, const JsonValue& value, const std::string& pointer) {
    if (value.kind == kind) return true;
    problems_.badForm(pointer,
                      std::string("must be ") + nameOf(kind) + ", but is " + nameOf(value.kind));
    return false;
  }

 private:
  DocumentProblems& problems_;
};

/// The `fields` of `visit` that reads one object.
class ObjectReader {
 public:
  ObjectReader(FormReader& reader, const JsonValue& object, const std::string& pointer)
      : reader_(reader), object_(object), pointer_(pointer) {}

  template <typename Member>
  void required(const char* key, Member& member) {
    if (!readIfThere(key, member)) reader_.problems().missing(pointer_, key);
  }
  template <typename Member>
  void usual(const char* key, Member& member) {
    readIfThere(key, member);
  }
  template <typename Member>
  void optional(const char* key, Member& member) {
    readIfThere(key, member);
  }
  template <typename Member>
  void unlessDefault(const char* key, Member& member, const Member&) {
    readIfThere(key, member);
  }
  template <typename Member>
  void nullable(const char* key, std::optional<Member>& member) {
    const JsonValue* value = take(key);
    if (value && value->kind != Kind::null) reader_.read(*value, pointerTo(pointer_, key), member);
  }
  void json(const char* key, std::string& text) {
    const JsonValue* value = take(key);
    if (!value) return reader_.problems().missing(pointer_, key);
    if (reader_.isA(Kind::object, *value, pointerTo(pointer_, key))) text = compactJson(*value);
  }

  /// What no member has asked for.
  void keepOthers(ExtraKeys& extra) {
    for (const JsonMember& member : object_.members) {
      if (std::find(known_.begin(), known_.end(), member.key) != known_.end()) continue;
      extra[member.key] = compactJson(member.value);
      reader_.problems().note(pointerTo(pointer_, member.key),
                              "is an unknown key: kept, but not used",
                              didYouMean(member.key, known_));
    }
  }

  /// A key that is read elsewhere.
  const JsonValue* take(const char* key) {
    known_.emplace_back(key);
    return object_.find(key);
  }

 private:
  template <typename Member>
  bool readIfThere(const char* key, Member& member) {
    const JsonValue* value = take(key);
    if (value) reader_.read(*value, pointerTo(pointer_, key), member);
    return value != nullptr;
  }

  FormReader& reader_;
  const JsonValue& object_;
  const std::string& pointer_;
  std::vector<std::string> known_;
};

template <typename Object>
requires requires(Object object) {
  object.extra;
}
void FormReader::read(const JsonValue& value, const std::string& pointer, Object& out) {
  if (!isA(Kind::object, value, pointer)) return;
  ObjectReader fields(*this, value, pointer);
  visit(fields, out);
  if constexpr (std::is_same_v<Object, AssemblyDocument>) {
    fields.take("swingroom");
    if (fields.take("closures")) {
      problems_.badForm(pointerTo(pointer, "closures"),
                        "is reserved: joints that close a ring cannot be checked yet",
                        "leave it out and let each part hang on one other");
    }
  }
  fields.keepOthers(out.extra);
}

/// Whether this is an assembly file of the version that we read; says what it is if not.
bool isOurs(const JsonValue& root, DocumentProblems& problems) {
  const JsonValue* version = root.find("swingroom");
  if (!version) {
    problems.badForm("", "is no Swingroom assembly file",
                     "an assembly file is an object with \"swingroom\": 1");
    return false;
  }
  if (version->kind == Kind::number && version->number == 1) return true;
  const bool newer = version->kind == Kind::number && version->number > 1;
  const std::string shown = compactJson(*version).substr(0, 40);
  problems.badForm("/swingroom",
                   newer ? "is version " + shown + ", but this program reads version 1"
                         : "must be the version number 1, but is " + shown,
                   newer ? "it was written by a newer Swingroom" : "");
  return false;
}

Problem unreadable(const std::filesystem::path& file, const std::string& why) {
  return {file.string(), "cannot be read: " + why, ""};
}

}  // namespace

Outcome<std::string> readDocumentText(const std::filesystem::path& file) {
  std::error_code error;
  const auto status = std::filesystem::status(file, error);
  if (!std::filesystem::exists(status)) return unreadable(file, "there is no such file");
  if (!std::filesystem::is_regular_file(status)) return unreadable(file, "it is not a file");
  const std::uintmax_t bytes = std::filesystem::file_size(file, error);
  if (error) return unreadable(file, error.message());
  if (bytes > kLargestFileBytes) {
    return Problem{file.string(),
                   "is " + std::to_string(bytes >> 20) + " MB, too large for an assembly file",
                   "at most 64 MB; meshes stay in files of their own"};
  }
  std::ifstream stream(file, std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(stream), {}};
  if (!stream) return unreadable(file, "the system does not let it be opened");
  return text;
}

std::optional<AssemblyDocument> readForm(std::string_view text, const std::string& name,
                                         DocumentProblems& problems) {
  const Outcome<JsonValue> root = parseJson(text, name);
  if (!root) {
    problems.add(root.problems());
    return std::nullopt;
  }
  if (!isOurs(*root, problems)) return std::nullopt;
  AssemblyDocument document;
  FormReader(problems).read(*root, "", document);
  return document;
}

Outcome<ReadDocument> parseDocument(std::string_view text, const std::string& name) {
  DocumentProblems problems(name);
  std::optional<AssemblyDocument> document = readForm(text, name, problems);
  if (problems.any()) return problems.mistakes();
  return ReadDocument{std::move(*document), problems.notes()};
}

Outcome<ReadDocument> readDocument(const std::filesystem::path& file) {
  const Outcome<std::string> text = readDocumentText(file);
  if (!text) return text.problems();
  return parseDocument(*text, file.string());
}

}  // namespace swingroom
