#include "app/edits/part_edits.h"

#include <QCoreApplication>
#include <algorithm>

#include "app/edits/sound_edit.h"
#include "app/edits/written_motion.h"
#include "core/files/document/json_value.h"

namespace swingroom::edits {
namespace {

struct PartText {
  Q_DECLARE_TR_FUNCTIONS(PartText)
};

void renameInJoints(AssemblyDocument& document, const std::string& from, const std::string& to) {
  for (DocumentJoint& joint : document.joints) {
    if (joint.parent == from) joint.parent = to;
    if (joint.child == from) joint.child = to;
  }
}

void renameInMotion(AssemblyDocument& document, const std::string& from, const std::string& to) {
  for (DocumentMode& mode : document.modes) {
    renameKey(mode.mounts, from, to);
    if (mode.placements) renameKey(*mode.placements, from, to);
  }
  for (DocumentSequence& way : document.sequences) {
    for (DocumentStep& step : way.steps) {
      if (step.replug && step.replug->part == from) step.replug->part = to;
    }
  }
}

/// Joints that placements need are named after their part.
void renameImplied(const AssemblyDocument& before, AssemblyDocument& after) {
  const auto places = [](const DocumentMode& mode) { return mode.placements.has_value(); };
  if (std::none_of(before.modes.begin(), before.modes.end(), places)) return;
  AssemblyDocument silent = after;
  for (DocumentMode& mode : silent.modes) {
    if (mode.values) mode.values->clear();  // They may name such a joint by its old name.
  }
  const auto was = WrittenMotion::of(before), is = WrittenMotion::of(silent);
  if (!was || !is) return;
  const auto old = was->impliedJoints(), fresh = is->impliedJoints();
  for (std::size_t j = 0; j < std::min(old.size(), fresh.size()); ++j) {
    for (DocumentMode& mode : after.modes) {
      if (mode.values) renameKey(*mode.values, old[j].name, fresh[j].name);
      for (auto& [part, joint] : mode.mounts) {
        if (joint == old[j].name) joint = fresh[j].name;
      }
    }
    for (DocumentSequence& way : after.sequences) {
      for (DocumentStep& step : way.steps) renameKey(step.moves, old[j].name, fresh[j].name);
    }
  }
}

}  // namespace

Edited renamePart(const AssemblyDocument& document, const std::string& name,
                  const std::string& wanted) {
  const std::string to = trimmed(wanted);
  AssemblyDocument changed = document;
  DocumentPart* part = findNamed(changed.parts, name);
  if (!part) return notThere(partCalled(name));
  if (to == name) return changed;
  if (const auto problem = nameProblem(partCalled(name), to, namesIn(document.parts)))
    return *problem;
  part->name = to;
  renameInJoints(changed, name, to);
  renameInMotion(changed, name, to);
  for (DocumentPair& pair : changed.pairs) {
    std::replace(pair.parts.begin(), pair.parts.end(), name, to);
  }
  renamePartInVariants(changed, name, to);
  renameImplied(document, changed);
  return changed;
}

PartProperties propertiesOf(const DocumentPart& part) {
  return {part.kind, part.material, part.count.value_or(1), part.clear.value_or(false), part.use};
}

Edited setProperties(const AssemblyDocument& document, const std::string& name,
                     const PartProperties& wanted) {
  AssemblyDocument changed = document;
  DocumentPart* part = findNamed(changed.parts, name);
  if (!part) return notThere(partCalled(name));
  const PartProperties was = propertiesOf(*part);
  if (wanted.count < 1) {
    return Problem{partCalled(name), PartText::tr("needs a count of at least 1").toStdString(), ""};
  }
  if (wanted.stage != was.stage && !part->stages.contains(wanted.stage)) {
    return Problem{partCalled(name),
                   PartText::tr("has no stage %1")
                       .arg(QString::fromStdString(inQuotes(wanted.stage)))
                       .toStdString(),
                   ""};
  }
  part->kind = wanted.kind;
  part->material = wanted.material;
  if (wanted.count != was.count) part->count = wanted.count;
  if (wanted.clear != was.clear) part->clear = wanted.clear;
  part->use = wanted.stage;
  return changed;
}

}  // namespace swingroom::edits
