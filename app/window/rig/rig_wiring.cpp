// The rig in the window: who hears of whom, and its menu.
#include <QMenu>
#include <QMenuBar>
#include <QStatusBar>

#include "app/models/text.h"
#include "app/window/main_window.h"

namespace swingroom {
namespace {

constexpr int kRigToldMs = 8000;

}  // namespace

void MainWindow::connectRig() {
  connect(rig_, &RigEditor::refused, this, [this](const Problem& problem) {
    problems_->show(tr("That cannot be done"), {problem});
  });
  connect(rig_, &RigEditor::told, this,
          [this](const QString& sentence) { statusBar()->showMessage(sentence, kRigToldMs); });
  connect(rig_, &RigEditor::jointAdded, this, [this](const QString& name) {
    statusBar()->showMessage(tr("New joint: %1").arg(name), kRigToldMs);
  });
  connect(rigPanel_, &RigPanel::rowChosen, this, [this](const RigRow& row) {
    const ScenePtr& scene = session_.scene();
    const bool known = scene && (!row.item || finder_->scene() == scene);
    if (!known || row.parts.empty()) return;
    if (!row.item) return session_.choice().choosePart(row.parts.front());
    if (row.item->kind == RigKind::contact) session_.choice().chooseParts(row.parts);
  });
  if (!rigTool_) return rigPanel_->newJoint().setVisible(false);
  connect(rigPanel_, &RigPanel::pointedAt, guides_, &RigGuides::point);
  connect(rigPanel_, &RigPanel::newJointWanted, rigTool_, &RigTool::openNew);
  connect(rigPanel_, &RigPanel::editWanted, rigTool_, &RigTool::openFor);
  connect(&view_->measure(), &MeasureTool::onChanged, this, [this](bool on) {
    if (on) rigTool_->close();
  });
}

void MainWindow::buildRigMenu() {
  QMenu* menu = menuBar()->addMenu(tr("&Rig"));
  menu->setToolTipsVisible(true);
  QAction* page = menu->addAction(tr("&Suggestions and joints"), QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_R),
                                  this, [this] { left_->showPage(LeftColumn::rig); });
  page->setToolTip(tr("The page of the rig in the left column"));
  QAction* everything = menu->addAction(tr("&Accept everything"), this, [this] {
    left_->showPage(LeftColumn::rig);  // Where it is seen what is taken.
    rig_->acceptEverything();
  });
  everything->setToolTip(tr("Pins, joints and contacts that the page of the rig suggests"));
  QAction* fresh = nullptr;
  if (rigTool_) {
    menu->addSeparator();
    fresh = menu->addAction(tr("New &joint"), QKeySequence(Qt::Key_J), rigTool_, &RigTool::openNew);
    fresh->setToolTip(tr("Pick its axis in the view, or write it in numbers."));
  }
  menu->addAction(&instances_->otherSide());
  menu->addSeparator();
  QAction* type = menu->addAction(tr("&Type a step"), QKeySequence(Qt::SHIFT | Qt::Key_T), this, [this] {
    left_->showPage(LeftColumn::motion);
    motionPanel_->stepLine().line().setFocus(Qt::ShortcutFocusReason);
  });
  type->setToolTip(tr("Joints and where they go, in words: knee 90, hip 45."));
  const auto showWhatCan = [this, page, everything, fresh, type] {
    const bool open = session_.scene() != nullptr;
    page->setEnabled(open);
    if (fresh) fresh->setEnabled(open);
    type->setEnabled(open && !session_.document().document().joints.empty());
    everything->setEnabled(open && !rig_->items().empty());
  };
  connect(&session_, &Session::sceneChanged, this, showWhatCan);
  connect(rig_, &RigEditor::changed, this, showWhatCan);
  showWhatCan();
}

}  // namespace swingroom
