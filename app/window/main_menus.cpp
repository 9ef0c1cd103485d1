// The menus of the window.
#include <QActionGroup>
#include <QApplication>
#include <QFileDialog>
#include <QFileInfo>
#include <QKeyEvent>
#include <QMenu>
#include <QMenuBar>
#include <QMessageBox>

#include "app/models/text.h"
#include "app/panels/way_axis.h"
#include "app/window/main_window.h"

namespace swingroom {
namespace {

/// A key that belongs to whichever widget has the focus; the menu only tells it.
QString withKey(const QString& text, const QString& key) {
  return text + QLatin1Char('\t') + key;
}

}  // namespace

void MainWindow::buildFileMenu() {
  QMenu* menu = menuBar()->addMenu(tr("&File"));
  menu->addAction(tr("&Open…"), QKeySequence::Open, files_, &FileActions::askOpen);
  QMenu* recent = menu->addMenu(tr("Open &recent"));
  connect(recent, &QMenu::aboutToShow, this, [this, recent] { fillRecent(*recent); });
  menu->addAction(tr("&Begin from part files…"), QKeySequence::New, files_,
                  [this] { files_->beginFromFolder(); });
  menu->addSeparator();
  menu->addAction(tr("&Save"), QKeySequence::Save, files_, &FileActions::save);
  menu->addAction(tr("Save &as…"), QKeySequence::SaveAs, files_, &FileActions::saveAs);
  menu->addAction(tr("Write a re&port…"), QKeySequence(Qt::CTRL | Qt::Key_R), this,
                  &MainWindow::askReport);
  menu->addSeparator();
  menu->addAction(tr("&Quit"), QKeySequence::Quit, this, &QWidget::close);
}

void MainWindow::fillRecent(QMenu& menu) {
  menu.clear();
  for (const QString& file : preferences_.recentFiles()) {
    menu.addAction(QFileInfo(file).fileName(), files_, [this, file] { files_->open(file); })
        ->setToolTip(file);
  }
  menu.setToolTipsVisible(true);
  menu.addSeparator();
  menu.addAction(tr("Forget them"), &preferences_, &Preferences::clearRecent);
}

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
        findings_->card().requiredGap().setFocus(Qt::ShortcutFocusReason);
        findings_->card().requiredGap().selectAll();
      });
  QAction* allow = menu->addAction(tr("&Allow the pair, because…"), &findings_->card(),
                                   &PairCard::changeAllowance);
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
  menu->addAction(tr("Check again"), QKeySequence(Qt::Key_F5), &session_, &Session::checkAgain);
}

void MainWindow::buildViewMenu() {
  QMenu* menu = menuBar()->addMenu(tr("&View"));
  if (view_) {
    using Side = Viewport::LookFrom;
    const std::pair<QString, Side> sides[] = {{tr("From three-quarter"), Side::threeQuarter},
                                              {tr("From the front"), Side::front},
                                              {tr("From behind"), Side::back},
                                              {tr("From the left"), Side::left},
                                              {tr("From the right"), Side::right},
                                              {tr("From above"), Side::top},
                                              {tr("From below"), Side::below}};
    for (const auto& [text, side] : sides) {
      menu->addAction(text, view_, [this, side = side] { view_->lookFrom(side); });
    }
    menu->addSeparator();
    menu->addAction(tr("&Fit all"), QKeySequence(Qt::Key_F), view_, &Viewport::fit);
    menu->addAction(tr("&Close to what is chosen"), QKeySequence(Qt::Key_C), bridge_,
                    &ViewBridge::bringChosen);
    QAction* parallel = menu->addAction(tr("&Parallel, as in a drawing"));
    parallel->setCheckable(true);
    parallel->setChecked(!view_->perspective());
    connect(parallel, &QAction::toggled, view_, [this](bool on) { view_->setPerspective(!on); });
    connect(view_, &Viewport::lookChanged, parallel,
            [this, parallel] { parallel->setChecked(!view_->perspective()); });
    QAction* axes = menu->addAction(tr("Axes and &zones of chosen joints"));
    axes->setCheckable(true);
    axes->setChecked(true);
    connect(axes, &QAction::toggled, bridge_, &ViewBridge::showJoints);
    menu->addSeparator();
  }
  menu->addAction(tr("Show &only what is chosen"), QKeySequence(Qt::Key_O), parts_,
                  &PartsPanel::showOnlyChosen);
  menu->addAction(tr("Show &all parts"), QKeySequence(Qt::SHIFT | Qt::Key_O),
                  &session_.visibility(), &Visibility::showAll);
  menu->addSeparator();
  QMenu* looks = menu->addMenu(tr("&Light or dark"));
  auto* group = new QActionGroup(looks);
  using Look = Preferences::Look;
  for (const auto& [text, look] : {std::pair(tr("As the system"), Look::asSystem),
                                   {tr("Light"), Look::light},
                                   {tr("Dark"), Look::dark}}) {
    QAction* action = group->addAction(looks->addAction(text));
    action->setCheckable(true);
    action->setChecked(preferences_.look() == look);
    connect(action, &QAction::triggered, this, [this, look = look] { preferences_.setLook(look); });
  }
  QAction* reduced = menu->addAction(tr("&Reduce motion"));
  reduced->setCheckable(true);
  reduced->setChecked(preferences_.reducedMotion());
  connect(reduced, &QAction::toggled, &preferences_, &Preferences::setReducedMotion);
}

void MainWindow::buildWayMenu() {
  QMenu* menu = menuBar()->addMenu(tr("&Way"));
  const auto add = [&](const QString& text, const QString& key, int code,
                       Qt::KeyboardModifiers with) {
    menu->addAction(withKey(text, key), this, [this, code, with] { moveBy(code, with); });
  };
  add(tr("Run, or stop"), tr("Space"), Qt::Key_Space, Qt::NoModifier);
  menu->addSeparator();
  add(tr("To the next step"), tr("Right"), Qt::Key_Right, Qt::NoModifier);
  add(tr("To the step before"), tr("Left"), Qt::Key_Left, Qt::NoModifier);
  add(tr("On by 1/100"), tr("Shift+Right"), Qt::Key_Right, Qt::ShiftModifier);
  add(tr("Back by 1/100"), tr("Shift+Left"), Qt::Key_Left, Qt::ShiftModifier);
  add(tr("To the beginning"), tr("Home"), Qt::Key_Home, Qt::NoModifier);
  add(tr("To the end"), tr("End"), Qt::Key_End, Qt::NoModifier);
}

void MainWindow::buildHelpMenu() {
  QMenu* menu = menuBar()->addMenu(tr("&Help"));
  menu->addAction(tr("What a check promises"), this, [this] {
    QMessageBox::information(
        this, tr("What a check promises"),
        tr("Every pair of parts is looked at over the whole way, at every instant and not at "
           "samples. A gap is given as a bracket: the true least gap lies in it. Clear is said "
           "only where it is proven; unproven is said where the budget ran out.\n\n"
           "All is about the meshes as modelled. What the printer adds is not looked at yet: a "
           "margin below what prints scatter is no margin.\n\n"
           "Swingroom advises on geometry and certifies nothing. Whether a toy is safe is decided "
           "by the law and standards of the place of sale and by qualified laboratories, and by "
           "your own test prints."));
  });
}

void MainWindow::moveBy(int key, Qt::KeyboardModifiers modifiers) {
  Stand& stand = session_.stand();
  if (key == Qt::Key_Space) return stand.setRunning(!stand.isRunning());
  if (const auto instant = instantAfter(key, modifiers, stand.instant(), stand.steps())) {
    stand.setRunning(false);
    stand.moveTo(*instant);
  }
}

void MainWindow::keyPressEvent(QKeyEvent* event) {
  // Keys that no widget with the focus has taken belong to the line.
  const bool ours = event->key() == Qt::Key_Space ||
                    instantAfter(event->key(), event->modifiers(), 0, 1).has_value();
  if (!ours || !session_.scene()) return QMainWindow::keyPressEvent(event);
  moveBy(event->key(), event->modifiers());
}

void MainWindow::askReport() {
  if (!session_.isProven() || reports_.isWriting()) return;
  const CheckBoard board = session_.board();  // An edit may end while the folder is asked for.
  const QString folder = QFileDialog::getExistingDirectory(
      this, tr("Folder for the report"), qt(session_.document().file().parent_path().string()));
  if (folder.isEmpty()) return;
  reports_.write(board, session_.document().file(), folder.toStdString());
}

}  // namespace swingroom
