#include "app/edits/variant_edits.h"

#include <QCoreApplication>

#include "app/edits/sound_edit.h"
#include "core/files/document/json_value.h"

namespace swingroom::edits {
namespace {

struct VariantText {
  Q_DECLARE_TR_FUNCTIONS(VariantText)
};

std::string variantCalled(const std::string& name) {
  return VariantText::tr("variant %1").arg(QString::fromStdString(inQuotes(name))).toStdString();
}

/// `{"parts":[{"name":PART,"stages":{STAGE:FILE}}]}`
std::string replacing(const OtherMesh& mesh) {
  JsonValue stages = JsonValue::object();
  stages.add(mesh.stage, JsonValue::of(mesh.file));
  JsonValue part = JsonValue::object();
  part.add("name", JsonValue::of(mesh.part));
  part.add("stages", std::move(stages));
  JsonValue replace = JsonValue::object();
  replace.add("parts", JsonValue::array({std::move(part)}));
  return compactJson(replace);
}

}  // namespace

Edited addVariant(const AssemblyDocument& document, const std::string& name,
                  const OtherMesh& mesh) {
  const std::string called = trimmed(name);
  if (const auto problem = nameProblem(VariantText::tr("a variant").toStdString(), called,
                                       namesIn(document.variants))) {
    return *problem;
  }
  const DocumentPart* part = findNamed(document.parts, mesh.part);
  if (!part) return notThere(partCalled(mesh.part));
  const std::string where = partCalled(mesh.part);
  if (part->stages.empty()) {
    return Problem{where, VariantText::tr("has no mesh that another could replace").toStdString(),
                   ""};
  }
  if (mesh.file.empty()) {
    return Problem{where, VariantText::tr("needs another mesh file").toStdString(), ""};
  }
  OtherMesh wanted = mesh;
  if (wanted.stage.empty()) wanted.stage = part->use;
  AssemblyDocument changed = document;
  changed.variants.push_back({called, replacing(wanted), {}});
  return soundEdit(document, std::move(changed), variantCalled(called));
}

Edited renameVariant(const AssemblyDocument& document, const std::string& name,
                     const std::string& wanted) {
  const std::string to = trimmed(wanted);
  AssemblyDocument changed = document;
  DocumentVariant* variant = findNamed(changed.variants, name);
  if (!variant) return notThere(variantCalled(name));
  if (to == name) return changed;
  if (const auto problem = nameProblem(variantCalled(name), to, namesIn(document.variants))) {
    return *problem;
  }
  variant->name = to;
  return changed;
}

Edited removeVariant(const AssemblyDocument& document, const std::string& name) {
  AssemblyDocument changed = document;
  const auto gone = std::erase_if(changed.variants,
                                  [&](const DocumentVariant& one) { return one.name == name; });
  if (gone == 0) return notThere(variantCalled(name));
  return changed;
}

std::vector<std::string> replacedBy(const AssemblyDocument& document, const std::string& name) {
  std::vector<std::string> replaced;
  const DocumentVariant* variant = findNamed(document.variants, name);
  if (!variant) return replaced;
  const Outcome<JsonValue> replace = parseJson(variant->replace, "variant");
  if (!replace) return replaced;
  for (const char* key : {"parts", "joints"}) {
    const JsonValue* list = replace->find(key);
    if (!list) continue;
    for (const JsonValue& entry : list->items) {
      if (const JsonValue* called = entry.find("name")) replaced.push_back(called->text);
    }
  }
  const JsonValue* pairs = replace->find("pairs");
  if (!pairs) return replaced;
  for (const JsonValue& entry : pairs->items) {
    const JsonValue* parts = entry.find("parts");
    if (!parts || parts->items.size() != 2) continue;
    replaced.push_back(VariantText::tr("%1 and %2")
                           .arg(QString::fromStdString(parts->items[0].text),
                                QString::fromStdString(parts->items[1].text))
                           .toStdString());
  }
  return replaced;
}

}  // namespace swingroom::edits
