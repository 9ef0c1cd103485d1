#include "core/files/loading/variants.h"

#include <functional>

#include "core/base/ensure.h"
#include "core/files/document/json_value.h"
#include "core/files/document/variant_document.h"

namespace swingroom {
namespace {

using Kind = JsonValue::Kind;

/// The entries of the list `key`, each an object; tells what is not.
void forEachIn(const JsonValue& replace, const char* key, const std::string& pointer,
               DocumentProblems& problems,
               const std::function<void(const JsonValue&, const std::string&)>& visit) {
  const JsonValue* list = replace.find(key);
  if (!list) return;
  const std::string at = pointerTo(pointer, key);
  if (list->kind != Kind::array) return problems.mistake(at, "must be a list");
  for (std::size_t i = 0; i < list->items.size(); ++i) {
    if (list->items[i].kind == Kind::object) {
      visit(list->items[i], pointerTo(at, i));
    } else {
      problems.mistake(pointerTo(at, i), "must be an object");
    }
  }
}

void checkNames(const JsonValue& replace, const char* key, const std::string& pointer,
                const NameIndex& known, DocumentProblems& problems) {
  forEachIn(replace, key, pointer, problems, [&](const JsonValue& entry, const std::string& at) {
    const JsonValue* name = entry.find("name");
    if (!name || name->kind != Kind::text) return problems.mistake(at, "has no \"name\"");
    known.find(name->text, pointerTo(at, "name"), problems);
  });
}

void checkPairs(const JsonValue& replace, const std::string& pointer, const NameIndex& parts,
                DocumentProblems& problems) {
  forEachIn(replace, "pairs", pointer, problems,
            [&](const JsonValue& entry, const std::string& at) {
              const JsonValue* pair = entry.find("parts");
              if (!pair || pair->items.size() != 2)
                return problems.mistake(at, "has no two \"parts\"");
              for (std::size_t i = 0; i < 2; ++i) {
                parts.find(pair->items[i].text, pointerTo(pointerTo(at, "parts"), i), problems);
              }
            });
}

}  // namespace

void checkVariants(const AssemblyDocument& document, const NameIndex& parts,
                   const NameIndex& joints, DocumentProblems& problems) {
  const NameIndex names(document.variants, "/variants", "variant", problems);
  for (std::size_t i = 0; i < document.variants.size(); ++i) {
    const std::string pointer = pointerTo(pointerTo("/variants", i), "replace");
    const Outcome<JsonValue> replace = parseJson(document.variants[i].replace, "variant");
    SWINGROOM_ENSURE(replace.ok());  // it was written by the reader of the file
    checkNames(*replace, "parts", pointer, parts, problems);
    checkNames(*replace, "joints", pointer, joints, problems);
    checkPairs(*replace, pointer, parts, problems);
    if (!problems.anyIn(pointer)) variantDocument(document, i, problems);
  }
}

}  // namespace swingroom
