#include "core/files/document/variant_document.h"

#include <algorithm>
#include <set>
#include <sstream>

#include "core/base/ensure.h"
#include "core/files/document/json_value.h"
#include "core/files/document/read_document.h"
#include "core/files/document/write_document.h"

namespace swingroom {
namespace {

using Kind = JsonValue::Kind;

/// RFC 7396, section 2.
void mergePatch(JsonValue& target, const JsonValue& patch) {
  if (patch.kind != Kind::object) {
    target = patch;
    return;
  }
  if (target.kind != Kind::object) target = JsonValue::object();
  for (const JsonMember& change : patch.members) {
    const auto there = std::find_if(target.members.begin(), target.members.end(),
                                    [&](const JsonMember& one) { return one.key == change.key; });
    if (change.value.kind == Kind::null) {
      if (there != target.members.end()) target.members.erase(there);
    } else if (there != target.members.end()) {
      mergePatch(there->value, change.value);
    } else {
      JsonValue added;
      mergePatch(added, change.value);
      target.add(change.key, std::move(added));
    }
  }
}

JsonValue* listIn(JsonValue& object, const char* key) {
  for (JsonMember& member : object.members) {
    if (member.key == key) return &member.value;
  }
  object.add(key, JsonValue::array());
  return &object.members.back().value;
}

std::string nameOf(const JsonValue& entry) {
  const JsonValue* name = entry.find("name");
  return name && name->kind == Kind::text ? name->text : "";
}

/// The two parts of a pair, in either order.
std::set<std::string> partsOf(const JsonValue& entry) {
  std::set<std::string> names;
  if (const JsonValue* parts = entry.find("parts")) {
    for (const JsonValue& part : parts->items) names.insert(part.text);
  }
  return names;
}

/// A pointer into the variant's document as one into the file.
std::string placeOf(const VariantDocument& variant, const std::string& pointer) {
  for (const auto& [here, inVariant] : variant.places) {
    if (pointer == here || pointer.starts_with(here + "/")) {
      return inVariant + pointer.substr(here.size());
    }
  }
  return pointer;
}

/// Puts a variant's entries in place of a document's.
class Replacer {
 public:
  Replacer(const AssemblyDocument& document, std::size_t index, DocumentProblems& problems)
      : variant_(document.variants.at(index)),
        pointer_(pointerTo(pointerTo("/variants", index), "replace")),
        problems_(problems) {
    AssemblyDocument plain = document;
    plain.variants.clear();
    const Outcome<JsonValue> json = parseJson(writeDocument(plain), "document");
    SWINGROOM_ENSURE(json.ok());
    root_ = *json;
  }

  std::optional<VariantDocument> make() {
    const Outcome<JsonValue> replace = parseJson(variant_.replace, "variant");
    SWINGROOM_ENSURE(replace.ok());  // It was written by the reader of the file.
    for (const JsonMember& member : replace->members) {
      if (member.key == "parts" || member.key == "joints") {
        putNamed(member.key.c_str(), member.value);
      } else if (member.key == "pairs") {
        putPairs(member.value);
      } else {
        problems_.note(pointerTo(pointer_, member.key), "is an unknown key: kept, but not used",
                       didYouMean(member.key, {"parts", "joints", "pairs"}));
      }
    }
    return read(*replace);
  }

 private:
  void putNamed(const char* key, const JsonValue& entries) {
    JsonValue& list = *listIn(root_, key);
    for (std::size_t i = 0; i < entries.items.size(); ++i) {
      const auto there =
          std::find_if(list.items.begin(), list.items.end(), [&](const JsonValue& one) {
            return nameOf(one) == nameOf(entries.items[i]);
          });
      if (there == list.items.end()) {
        problems_.mistake(pointerTo(pointerTo(pointerTo(pointer_, key), i), "name"),
                          "names nothing that is there");
        continue;
      }
      put(key, list, static_cast<std::size_t>(there - list.items.begin()), entries.items[i], i);
    }
  }

  void putPairs(const JsonValue& entries) {
    JsonValue& list = *listIn(root_, "pairs");
    for (std::size_t i = 0; i < entries.items.size(); ++i) {
      const auto there =
          std::find_if(list.items.begin(), list.items.end(), [&](const JsonValue& one) {
            return partsOf(one) == partsOf(entries.items[i]);
          });
      const auto at = static_cast<std::size_t>(there - list.items.begin());
      if (there == list.items.end()) list.items.push_back(JsonValue::object());
      put("pairs", list, at, entries.items[i], i);
    }
  }

  void put(const char* key, JsonValue& list, std::size_t at, const JsonValue& entry,
           std::size_t i) {
    places_.emplace_back(pointerTo(std::string("/") + key, at),
                         pointerTo(pointerTo(pointer_, key), i));
    mergePatch(list.items[at], entry);
  }

  std::optional<VariantDocument> read(const JsonValue& replace) {
    DocumentProblems inner("");
    std::optional<AssemblyDocument> document = readForm(compactJson(root_), "", inner);
    VariantDocument made{variant_.name, {}, std::move(places_)};
    // Their `where` is "#/parts/4/use". What is wrong elsewhere is the plain file's.
    for (const Problem& note : inner.notes()) {
      const std::string place = placeOf(made, note.where.substr(1));
      if (isWritten(replace, place)) problems_.note(place, note.what, note.hint);
    }
    for (const Problem& mistake : inner.mistakes()) {
      const std::string place = placeOf(made, mistake.where.substr(1));
      if (place.starts_with(pointer_)) problems_.mistake(place, mistake.what, mistake.hint);
    }
    if (!document || inner.any() || problems_.anyIn(pointer_)) return std::nullopt;
    made.document = std::move(*document);
    return made;
  }

 private:
  /// Whether the variant itself has that key, which is the last of the pointer: parts/0/KEY.
  bool isWritten(const JsonValue& replace, const std::string& place) const {
    if (!place.starts_with(pointer_ + "/")) return false;
    const JsonValue* at = &replace;
    std::istringstream keys(place.substr(pointer_.size() + 1));
    for (std::string key; at && std::getline(keys, key, '/');) {
      at = at->kind == Kind::array ? &at->items.at(std::stoul(key)) : at->find(key);
    }
    return at != nullptr;
  }

  const DocumentVariant& variant_;
  std::string pointer_;  ///< Of its `replace`.
  DocumentProblems& problems_;
  JsonValue root_;  ///< The document, changed more and more.
  std::vector<std::pair<std::string, std::string>> places_;
};

}  // namespace

std::optional<VariantDocument> variantDocument(const AssemblyDocument& document, std::size_t index,
                                               DocumentProblems& problems) {
  return Replacer(document, index, problems).make();
}

Outcome<VariantDocument> documentOfVariant(const AssemblyDocument& document,
                                           const std::string& variant, const std::string& file) {
  std::vector<std::string> known;
  for (std::size_t i = 0; i < document.variants.size(); ++i) {
    known.push_back(document.variants[i].name);
    if (known.back() != variant) continue;
    DocumentProblems problems(file);
    auto made = variantDocument(document, i, problems);
    if (!made) return problems.mistakes();
    return std::move(*made);
  }
  const std::string near = didYouMean(variant, known);
  return Problem{file, "has no variant " + inQuotes(variant),
                 known.empty() ? "it has none" : near.empty() ? "it has: " + listed(known) : near};
}

Problems inFile(const VariantDocument& variant, Problems problems) {
  for (Problem& problem : problems) {
    const std::size_t hash = problem.where.find("#/");
    if (hash != std::string::npos) {
      problem.where = problem.where.substr(0, hash + 1) +
                      placeOf(variant, problem.where.substr(hash + 1));
    }
    problem.what = "in variant " + inQuotes(variant.name) + ": " + problem.what;
  }
  return problems;
}

}  // namespace swingroom
