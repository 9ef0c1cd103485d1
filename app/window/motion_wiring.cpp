// Modes and steps in the window: who hears of whom, and their entries in the menu of the way.
#include <QMenu>
#include <QShortcut>
#include <QStatusBar>

#include "app/models/text.h"
#include "app/panels/steps/motion_menus.h"
#include "app/panels/way/line_of_steps.h"
#include "app/window/main_window.h"

namespace swingroom {
namespace {

constexpr int kStepToldMs = 8000;

}  // namespace

void MainWindow::connectMotion() {
  // Before the page opens a name's editor it has to be in sight.
  const auto showPage = [this] { left_->showPage(LeftColumn::motion); };
  connect(motion_, &MotionEditor::modeAdded, this, showPage);
  connect(motion_, &MotionEditor::wayAdded, this, showPage);
  connect(motion_, &MotionEditor::stepAdded, this, showPage);
  connect(motion_, &MotionEditor::refused, this, [this](const Problem& problem) {
    problems_->show(tr("That cannot be done"), {problem});
  });
  connect(typing_, &StepTyping::refused, motion_, &MotionEditor::refused);
  connect(motion_, &MotionEditor::changed, this, [this] {
    if (session_.problems().empty()) problems_->hide();
  });
  connect(motion_, &MotionEditor::told, this,
          [this](const QString& sentence) { statusBar()->showMessage(sentence, kStepToldMs); });
  connect(&problems_->offerButton(), &QPushButton::clicked, this, [this] {
    if (const auto way = motion_->shortWay()) motion_->finishWay(*way);
  });
  // There the steps have more use of the room than a hint has.
  const auto showJoints = [this] {
    const bool some = session_.choice().part() || session_.stand().isByHand();
    const bool shown = left_->page() >= LeftColumn::rig ? session_.stand().isByHand()
                                                        : left_->page() == LeftColumn::parts || some;
    joints_->setVisible(shown);
    jointsLine_->setVisible(shown);
  };
  connect(&left_->words(), &QTabBar::currentChanged, this, showJoints);
  connect(&session_.choice(), &Choice::changed, this, showJoints);
  connect(&session_.stand(), &Stand::moved, this, showJoints);
  lineHandles_ = new LineHandles(ribbon_->line());
  connect(lineHandles_, &LineHandles::renameWanted, this,
          [this](std::size_t step, const QString& name) {
            motion_->renameStep(step, name.toStdString());
          });
  connect(lineHandles_, &LineHandles::moveWanted, motion_, &MotionEditor::moveStep);
  connect(lineHandles_, &LineHandles::stepMenuWanted, this,
          [this](std::size_t step, double instant, const QPoint& global) {
            QMenu menu(this);
            fillStepMenu(menu, *motion_, step, instant,
                         [this, step] { lineHandles_->editName(step); });
            if (!menu.isEmpty()) menu.exec(global);
          });
  connect(lineHandles_, &LineHandles::stationMenuWanted, this,
          [this](bool atEnd, const QPoint& global) {
            const DocumentSequence* way = motion_->way();
            if (!way) return;
            const std::string mode = atEnd ? way->to : way->from;
            QMenu menu(this);
            fillModeMenu(menu, *motion_, *typing_, mode, [this, mode] { renameModeInPage(mode); });
            menu.exec(global);
          });
  auto* rename = new QShortcut(QKeySequence(Qt::Key_F2), ribbon_, nullptr, nullptr,
                               Qt::WidgetWithChildrenShortcut);
  connect(rename, &QShortcut::activated, this, [this] { lineHandles_->editName(motion_->step()); });
}

void MainWindow::renameModeInPage(const std::string& mode) {
  left_->showPage(LeftColumn::motion);
  const auto& modes = motion_->document().modes;
  for (std::size_t m = 0; m < modes.size(); ++m) {
    if (modes[m].name == mode) motionPanel_->modes().rename(static_cast<int>(m));
  }
}

void MainWindow::addMotionTo(QMenu& menu) {
  menu.addSeparator();
  const auto add = [&](const QString& text, const QKeySequence& key, auto act) {
    QAction* action = menu.addAction(text, key, this, act);
    return action;
  };
  const auto both = Qt::CTRL | Qt::SHIFT;
  QAction* mode = add(tr("New &mode from here"), QKeySequence(both | Qt::Key_M),
                      [this] { motion_->addModeHere(); });
  QAction* step = add(tr("New &step from here"), QKeySequence(both | Qt::Key_N),
                      [this] { motion_->addStepHere(); });
  QAction* end = add(tr("Step &ends here"), QKeySequence(both | Qt::Key_E),
                     [this] { motion_->setStepEndHere(motion_->step()); });
  QAction* split = add(tr("Sp&lit the step here"), QKeySequence(both | Qt::Key_K),
                       [this] { motion_->splitAt(session_.stand().instant()); });
  QAction* join = add(tr("&Join the step with the next"), QKeySequence(both | Qt::Key_J),
                      [this] { motion_->joinStep(motion_->step()); });
  QAction* earlier = add(tr("Step earl&ier"), QKeySequence(both | Qt::Key_Left), [this] {
    if (motion_->step() > 0) motion_->moveStep(motion_->step(), motion_->step() - 1);
  });
  QAction* later = add(tr("Step l&ater"), QKeySequence(both | Qt::Key_Right),
                       [this] { motion_->moveStep(motion_->step(), motion_->step() + 1); });
  QAction* remove = add(tr("&Remove the step"), QKeySequence(both | Qt::Key_Delete),
                        [this] { motion_->removeStep(motion_->step()); });
  QAction* finish = add(tr("&Finish the way"), QKeySequence(both | Qt::Key_F), [this] {
    if (const auto way = motion_->shortWay()) motion_->finishWay(*way);
  });
  menu.addMenu(new QMenu(tr("New &way"), &menu));
  QMenu* ways = menu.actions().constLast()->menu();
  connect(ways, &QMenu::aboutToShow, this, [this, ways] {
    qDeleteAll(ways->findChildren<QMenu*>(Qt::FindDirectChildrenOnly));
    ways->clear();
    fillNewWayMenu(*ways, *motion_, *typing_);
  });
  const auto showWhatCan = [=, this] {
    const bool open = session_.scene() != nullptr;
    const bool some = open && motion_->way();
    mode->setEnabled(open);
    for (QAction* action : {step, end, split, join, earlier, later, remove}) {
      action->setEnabled(some);
    }
    finish->setEnabled(motion_->shortWay().has_value());
    ways->setEnabled(!motion_->document().modes.empty());
  };
  connect(motion_, &MotionEditor::changed, this, showWhatCan);
  connect(&session_, &Session::sceneChanged, this, showWhatCan);
  showWhatCan();
}

}  // namespace swingroom
