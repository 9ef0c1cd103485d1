#include "app/window/stages/stage_actions.h"

#include <QAction>
#include <QFileDialog>
#include <QMenu>
#include <algorithm>

#include "app/edits/stage_edits.h"
#include "app/models/stages/stage_story.h"
#include "app/models/text.h"
#include "app/window/menus/told_action.h"
#include "core/measure/stage_check.h"

namespace swingroom {

StageActions::StageActions(Session& session, QWidget* window)
    : QObject(window), session_(session), window_(window) {
  const auto make = [&](const QString& text, const QKeySequence& key, const QString& tip) {
    return toldAction(text, key, tip, this);
  };
  allBlock_ = make(tr("&All as block"), {}, tr("The block mesh of every part that has one is in use."));
  allDetail_ = make(tr("All as detail &where there is one"), {},
                    tr("The detail mesh of every part that has one is in use; the others stay."));
  part_ = make(tr("Use its &detail"), Qt::Key_B, tr("The other stage of the chosen parts that have both."));
  file_ = make(tr("Detail &file…"), {}, tr("Chooses the detail mesh of the part chosen last."));
  compare_ = make(tr("&Compare block and detail"), Qt::CTRL | Qt::Key_B,
                  tr("Where the surface moved, which holes moved, and the gaps with both."));
  connect(allBlock_, &QAction::triggered, this, [this] { useInAll(kBlockStage); });
  connect(allDetail_, &QAction::triggered, this, [this] { useInAll(kDetailStage); });
  connect(part_, &QAction::triggered, this, &StageActions::switchChosen);
  connect(file_, &QAction::triggered, this, &StageActions::askFile);
  connect(compare_, &QAction::triggered, this, [this] {
    if (const DocumentPart* part = chosenLast()) Q_EMIT compareWanted(part->name);
  });
  connect(&session.choice(), &Choice::changed, this, &StageActions::showWhatCan);
  connect(&session, &Session::sceneChanged, this, &StageActions::showWhatCan);
  connect(&session.document(), &OpenDocument::changed, this, &StageActions::showWhatCan);
  showWhatCan();
}

void StageActions::addTo(QMenu& menu) const {
  QMenu* stages = menu.addMenu(tr("&Stages"));
  stages->addActions({allBlock_, allDetail_});
  stages->addSeparator();
  stages->addActions(ofParts());
}

std::vector<const DocumentPart*> StageActions::chosen() const {
  std::vector<const DocumentPart*> parts;
  const ScenePtr& scene = session_.scene();
  if (!scene) return parts;
  for (const PartId id : session_.choice().parts()) {
    if (id.index >= scene->assembly().parts().size()) continue;
    const auto* part = edits::findNamed(session_.document().document().parts, scene->assembly().part(id).name);
    if (part) parts.push_back(part);
  }
  return parts;
}

const DocumentPart* StageActions::chosenLast() const {
  const auto parts = chosen();
  return parts.empty() ? nullptr : parts.back();
}

void StageActions::showWhatCan() {
  const auto parts = chosen();
  const bool anyBoth = std::any_of(parts.begin(), parts.end(), [](const DocumentPart* p) { return hasBothStages(*p); });
  const bool allDetail = std::all_of(parts.begin(), parts.end(), [](const DocumentPart* p) {
    return !hasBothStages(*p) || p->use == kDetailStage;
  });
  part_->setText(anyBoth && allDetail ? tr("Use its &block") : tr("Use its &detail"));
  part_->setEnabled(anyBoth);
  file_->setEnabled(!parts.empty());
  compare_->setEnabled(!parts.empty() && hasBothStages(*parts.back()));
  const edits::StageMix mix = edits::stageMixOf(session_.document().document());
  allBlock_->setEnabled(mix.inDetail > 0);
  allDetail_->setEnabled(mix.inDetail < mix.withBoth);
}

void StageActions::useInAll(const std::string& stage) {
  const auto edited = edits::useStage(session_.document().document(), {}, stage);
  if (!edited) {
    Q_EMIT refused(edited.problems().front());
    return;
  }
  session_.document().edit(stage == kBlockStage ? tr("all as block") : tr("all as detail"), *edited);
  Q_EMIT told(tr("In use: %1").arg(stageMixText(session_.document().document())));
}

void StageActions::switchChosen() {
  std::set<std::string> names;
  bool allDetail = true;
  for (const DocumentPart* part : chosen()) {
    if (!hasBothStages(*part)) continue;
    names.insert(part->name);
    allDetail = allDetail && part->use == kDetailStage;
  }
  if (names.empty()) return;
  const std::string stage = allDetail ? kBlockStage : kDetailStage;
  const auto edited = edits::useStage(session_.document().document(), names, stage);
  if (!edited) {
    Q_EMIT refused(edited.problems().front());
    return;
  }
  const QString what = names.size() == 1 ? qt(*names.begin())
                                         : tr("%n part(s)", nullptr, static_cast<int>(names.size()));
  session_.document().edit(stage == kBlockStage ? tr("%1 as block").arg(what) : tr("%1 as detail").arg(what),
                           *edited);
  Q_EMIT told(tr("In use: %1").arg(stageMixText(session_.document().document())));
}

void StageActions::switchStage(const std::string& name) {
  const auto* part = edits::findNamed(session_.document().document().parts, name);
  if (!part) return;
  const std::string stage = part->use == kDetailStage ? kBlockStage : kDetailStage;
  const auto edited = edits::useStage(session_.document().document(), {name}, stage);
  if (!edited) {
    Q_EMIT refused(edited.problems().front());
    return;
  }
  session_.document().edit(stage == kBlockStage ? tr("%1 as block").arg(qt(name)) : tr("%1 as detail").arg(qt(name)),
                           *edited);
}

void StageActions::askFile() {
  const DocumentPart* part = chosenLast();
  if (!part) return;
  const std::string name = part->name;
  const std::filesystem::path folder = session_.document().file().parent_path();
  const QString file = QFileDialog::getOpenFileName(
      window_, tr("Detail mesh of %1").arg(qt(name)), qt(folder.string()),
      tr("Meshes (*.stl *.obj *.ply *.3mf *.gltf *.glb *.dae *.step *.stp);;All files (*)"));
  if (!file.isEmpty()) giveDetail(name, file);
}

void StageActions::giveDetail(const std::string& part, const QString& chosenFile) {
  const std::filesystem::path file = chosenFile.toStdString();
  if (!MeshReader::knows(file)) {
    Q_EMIT refused({file.filename().string(), tr("is no mesh file that can be read").toStdString(),
                    tr("STL, OBJ, PLY, 3MF, glTF, DAE and STEP can").toStdString()});
    return;
  }
  const std::filesystem::path folder = std::filesystem::absolute(session_.document().file()).parent_path();
  const std::filesystem::path relative = std::filesystem::absolute(file).lexically_normal().lexically_relative(folder);
  const std::string written = (relative.empty() ? file : relative).generic_string();
  const auto edited = edits::giveStage(session_.document().document(), part, kDetailStage, written);
  if (!edited) {
    Q_EMIT refused(edited.problems().front());
    return;
  }
  session_.document().edit(tr("detail file of %1").arg(qt(part)), *edited);
  Q_EMIT told(tr("%1 is the detail of %2 now, and in use").arg(qt(file.filename().string()), qt(part)));
}

}  // namespace swingroom
