#include "app/edits/stage_edits.h"

#include <QCoreApplication>

#include "app/edits/sound_edit.h"
#include "core/files/document/json_value.h"

namespace swingroom::edits {
namespace {

struct StageText {
  Q_DECLARE_TR_FUNCTIONS(StageText)
};

}  // namespace

bool hasStage(const DocumentPart& part, const std::string& stage) {
  const auto found = part.stages.find(stage);
  return found != part.stages.end() && !found->second.empty();
}

StageMix stageMixOf(const AssemblyDocument& document) {
  StageMix mix;
  for (const DocumentPart& part : document.parts) {
    if (!hasStage(part, "block") || !hasStage(part, "detail")) continue;
    ++mix.withBoth;
    if (part.use == "detail") ++mix.inDetail;
  }
  return mix;
}

Edited useStage(const AssemblyDocument& document, const std::set<std::string>& parts,
                const std::string& stage) {
  AssemblyDocument changed = document;
  bool any = false;
  for (DocumentPart& part : changed.parts) {
    if ((!parts.empty() && !parts.contains(part.name)) || !hasStage(part, stage)) continue;
    part.use = stage;
    any = true;
  }
  if (any) return changed;
  const QString named = QString::fromStdString(inQuotes(stage));
  if (parts.size() == 1) {
    return Problem{partCalled(*parts.begin()), StageText::tr("has no stage %1").arg(named).toStdString(), ""};
  }
  return Problem{StageText::tr("no part").toStdString(),
                 StageText::tr("has a mesh of stage %1").arg(named).toStdString(),
                 StageText::tr("give a part its detail file first").toStdString()};
}

Edited giveStage(const AssemblyDocument& document, const std::string& name, const std::string& stage,
                 const std::string& written) {
  AssemblyDocument changed = document;
  DocumentPart* part = findNamed(changed.parts, name);
  if (!part) return notThere(partCalled(name));
  if (written.empty()) {
    return Problem{partCalled(name), StageText::tr("needs the name of a file").toStdString(), ""};
  }
  part->stages[stage] = written;
  part->use = stage;
  return changed;
}

}  // namespace swingroom::edits
