#include "app/edits/edit_names.h"

#include <QCoreApplication>
#include <algorithm>

#include "core/files/document/json_value.h"

namespace swingroom::edits {
namespace {

struct NameText {
  Q_DECLARE_TR_FUNCTIONS(NameText)
};

JsonValue* member(JsonValue& object, const char* key) {
  for (JsonMember& one : object.members) {
    if (one.key == key) return &one.value;
  }
  return nullptr;
}

std::vector<std::string> textsIn(const JsonValue* list) {
  std::vector<std::string> texts;
  if (!list) return texts;
  for (const JsonValue& item : list->items) texts.push_back(item.text);
  return texts;
}

void putTexts(JsonValue& contact, const char* key, const std::vector<std::string>& was,
              const std::vector<std::string>& texts) {
  if (texts == was) return;
  JsonValue list = JsonValue::array();
  for (const std::string& text : texts) list.items.push_back(JsonValue::of(text));
  if (JsonValue* there = member(contact, key)) *there = std::move(list);
}

/// What a variant replaces, changed; its text stays where nothing is.
void changeVariants(AssemblyDocument& document, const std::function<void(JsonValue&)>& change) {
  for (DocumentVariant& variant : document.variants) {
    Outcome<JsonValue> replace = parseJson(variant.replace, "variant");
    if (!replace) continue;  // It was written by the reader of the file.
    const std::string before = compactJson(*replace);
    change(*replace);
    const std::string after = compactJson(*replace);
    if (after != before) variant.replace = after;
  }
}

/// The entries of one of a variant's lists.
std::vector<JsonValue*> entries(JsonValue& object, const char* key) {
  std::vector<JsonValue*> found;
  JsonValue* list = member(object, key);
  if (!list) return found;
  for (JsonValue& item : list->items) {
    if (item.kind == JsonValue::Kind::object) found.push_back(&item);
  }
  return found;
}

void replaceText(JsonValue* value, const std::string& from, const std::string& to) {
  if (value && value->kind == JsonValue::Kind::text && value->text == from) value->text = to;
}

}  // namespace

std::string freeName(const std::string& wanted, const std::set<std::string>& taken) {
  std::string name = wanted;
  for (int i = 2; taken.contains(name); ++i) name = wanted + " " + std::to_string(i);
  return name;
}

std::string trimmed(const std::string& name) {
  const std::size_t first = name.find_first_not_of(" \t\r\n");
  if (first == std::string::npos) return "";
  return name.substr(first, name.find_last_not_of(" \t\r\n") - first + 1);
}

std::optional<Problem> nameProblem(const std::string& where, const std::string& name,
                                   const std::set<std::string>& taken) {
  if (trimmed(name).empty()) {
    return Problem{where, NameText::tr("needs a name").toStdString(), ""};
  }
  if (!taken.contains(name)) return std::nullopt;
  return Problem{where,
                 NameText::tr("cannot be called %1: that name is taken")
                     .arg(QString::fromStdString(inQuotes(name)))
                     .toStdString(),
                 NameText::tr("%1 is free")
                     .arg(QString::fromStdString(inQuotes(freeName(name, taken))))
                     .toStdString()};
}

Problem notThere(const std::string& where) {
  return {where, NameText::tr("is not there any more").toStdString(), ""};
}

void forEachContact(AssemblyDocument& document, const NamesChange& change) {
  for (DocumentPair& pair : document.pairs) {
    for (DocumentContact& contact : pair.contacts) change(contact.modes, contact.steps);
  }
  changeVariants(document, [&](JsonValue& replace) {
    for (JsonValue* pair : entries(replace, "pairs")) {
      for (JsonValue* contact : entries(*pair, "contacts")) {
        const auto modesWere = textsIn(contact->find("modes"));
        const auto stepsWere = textsIn(contact->find("steps"));
        auto modes = modesWere, steps = stepsWere;
        change(modes, steps);
        putTexts(*contact, "modes", modesWere, modes);
        putTexts(*contact, "steps", stepsWere, steps);
      }
    }
  });
}

void forEachContact(const AssemblyDocument& document,
                    const std::function<void(const std::vector<std::string>&,
                                             const std::vector<std::string>&)>& visit) {
  AssemblyDocument copy;
  copy.pairs = document.pairs;
  copy.variants = document.variants;
  forEachContact(copy, [&](std::vector<std::string>& modes, std::vector<std::string>& steps) {
    visit(modes, steps);
  });
}

bool contains(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

void replaceName(std::vector<std::string>& names, const std::string& from, const std::string& to) {
  if (from == to || !contains(names, from)) return;
  if (contains(names, to)) {
    std::erase(names, from);
  } else {
    std::replace(names.begin(), names.end(), from, to);
  }
}

void addBehind(std::vector<std::string>& names, const std::string& name, const std::string& added) {
  const auto at = std::find(names.begin(), names.end(), name);
  if (at != names.end() && !contains(names, added)) names.insert(at + 1, added);
}

std::size_t forget(AssemblyDocument& document, const std::set<std::string>& modes,
                   const std::set<std::string>& steps) {
  const auto isGone = [](const std::set<std::string>& gone) {
    return [&gone](const std::string& name) { return gone.contains(name); };
  };
  const auto takeOut = [&](std::vector<std::string>& ofModes, std::vector<std::string>& ofSteps) {
    return std::erase_if(ofModes, isGone(modes)) + std::erase_if(ofSteps, isGone(steps)) > 0;
  };
  std::size_t dropped = 0;
  std::erase_if(document.pairs, [&](DocumentPair& pair) {
    const std::size_t idle = std::erase_if(pair.contacts, [&](DocumentContact& contact) {
      return takeOut(contact.modes, contact.steps) && contact.modes.empty() &&
             contact.steps.empty();
    });
    dropped += idle;
    DocumentPair empty;
    empty.parts = pair.parts;
    return idle > 0 && pair == empty;
  });
  // Variants' contacts, which come after: the document's own are done.
  forEachContact(document, [&](std::vector<std::string>& ofModes,
                               std::vector<std::string>& ofSteps) { takeOut(ofModes, ofSteps); });
  return dropped;
}

void renameProcessesInVariants(AssemblyDocument& document, const NewName& nowCalled) {
  changeVariants(document, [&](JsonValue& replace) {
    for (JsonValue* part : entries(replace, "parts")) {
      JsonValue* process = member(*part, "process");
      if (process && process->kind == JsonValue::Kind::text) process->text = nowCalled(process->text);
    }
  });
}

void renamePartInVariants(AssemblyDocument& document, const std::string& from,
                          const std::string& to) {
  changeVariants(document, [&](JsonValue& replace) {
    for (JsonValue* part : entries(replace, "parts")) replaceText(member(*part, "name"), from, to);
    for (JsonValue* joint : entries(replace, "joints")) {
      replaceText(member(*joint, "parent"), from, to);
      replaceText(member(*joint, "child"), from, to);
    }
    for (JsonValue* pair : entries(replace, "pairs")) {
      if (JsonValue* parts = member(*pair, "parts")) {
        for (JsonValue& part : parts->items) replaceText(&part, from, to);
      }
    }
  });
}

void renameJointInVariants(AssemblyDocument& document, const std::string& from,
                           const std::string& to) {
  changeVariants(document, [&](JsonValue& replace) {
    for (JsonValue* joint : entries(replace, "joints")) {
      replaceText(member(*joint, "name"), from, to);
      if (JsonValue* follows = member(*joint, "follows")) {
        replaceText(member(*follows, "joint"), from, to);
      }
    }
  });
}

std::size_t forgetInVariants(AssemblyDocument& document, const std::set<std::string>& parts,
                             const std::set<std::string>& joints) {
  std::size_t gone = 0;
  const auto names = [](const JsonValue* value, const std::set<std::string>& wanted) {
    return value && value->kind == JsonValue::Kind::text && wanted.contains(value->text);
  };
  const auto dropFrom = [&](JsonValue& replace, const char* key, const auto& isGone) {
    JsonValue* list = member(replace, key);
    if (list) gone += std::erase_if(list->items, isGone);
  };
  changeVariants(document, [&](JsonValue& replace) {
    dropFrom(replace, "parts",
             [&](const JsonValue& one) { return names(one.find("name"), parts); });
    dropFrom(replace, "joints", [&](const JsonValue& one) {
      return names(one.find("name"), joints) || names(one.find("parent"), parts) ||
             names(one.find("child"), parts);
    });
    dropFrom(replace, "pairs", [&](const JsonValue& one) {
      const JsonValue* pair = one.find("parts");
      return pair && std::any_of(pair->items.begin(), pair->items.end(),
                                 [&](const JsonValue& part) { return names(&part, parts); });
    });
  });
  return gone;
}

}  // namespace swingroom::edits
