// The menu of edits.
#include <QMenu>
#include <QMenuBar>

#include "app/window/main_window.h"
#include "app/window/menus/size_actions.h"
#include "app/window/stages/stage_actions.h"
#include "app/window/variants/variant_actions.h"

namespace swingroom {

void MainWindow::buildEditMenu() {
  QMenu* menu = menuBar()->addMenu(tr("&Edit"));
  QUndoStack& undo = session_.document().undoStack();
  QAction* undoAction = undo.createUndoAction(this, tr("Undo"));
  undoAction->setShortcut(QKeySequence::Undo);
  QAction* redoAction = undo.createRedoAction(this, tr("Redo"));
  redoAction->setShortcut(QKeySequence::Redo);
  menu->addActions({undoAction, redoAction});
  menu->addSeparator();
  QAction* required =
      menu->addAction(tr("Required &gap of the pair"), QKeySequence(Qt::Key_G), this, [this] {
        showFindings();
        findings_->card().requiredGap().setFocus(Qt::ShortcutFocusReason);
        findings_->card().requiredGap().selectAll();
      });
  QAction* allow = menu->addAction(tr("&Allow the pair, because…"), &findings_->card(),
                                   &PairCard::changeAllowance);
  menu->addSeparator();
  menu->addAction(&partActions_->properties());
  instances_->addTo(*menu);
  sizes_ = new SizeActions(session_, view_, *problems_, this);
  sizes_->addTo(*menu);
  stages_->addTo(*menu);
  variants_->addTo(*menu);
  const auto showWhatCan = [this, required, allow] {
    const bool some = session_.choice().pair().has_value();
    required->setEnabled(some);
    allow->setEnabled(some);
    const bool allowed = some && !findings_->card().story().allowedBecause.isEmpty();
    allow->setText(allowed ? tr("&Judge the pair again") : tr("&Allow the pair, because…"));
  };
  connect(&session_.choice(), &Choice::changed, this, showWhatCan);
  connect(&session_, &Session::boardChanged, this, showWhatCan);
  showWhatCan();
  menu->addSeparator();
  const auto inFindings = [this](auto act) {
    return [this, act] {
      right_->showPage(RightColumn::findings);
      act(*findings_);
    };
  };
  menu->addAction(tr("&Find in the findings"), QKeySequence::Find, findings_,
                  inFindings([](FindingsPanel& findings) { findings.startSearch(); }));
  menu->addAction(tr("&Next finding"), QKeySequence(Qt::Key_F4), findings_,
                  inFindings([](FindingsPanel& findings) { findings.goToNeighbour(1); }));
  menu->addAction(tr("Finding &before"), QKeySequence(Qt::SHIFT | Qt::Key_F4), findings_,
                  inFindings([](FindingsPanel& findings) { findings.goToNeighbour(-1); }));
  menu->addAction(tr("&History of checks"), QKeySequence(Qt::CTRL | Qt::Key_H), right_,
                  [this] { right_->showPage(RightColumn::history); });
  menu->addAction(tr("&Copy what the pair's card says"), &findings_->card(), &PairCard::copy);
  menu->addSeparator();
  menu->addAction(tr("Check again"), QKeySequence(Qt::Key_F5), &session_, &Session::checkAgain);
}

}  // namespace swingroom
