// The menu of the way, and the keys that belong to it.
#include <QKeyEvent>
#include <QMenu>
#include <QMenuBar>

#include "app/panels/way/ribbon_head.h"
#include "app/panels/way/way_axis.h"
#include "app/window/main_window.h"

namespace swingroom {
namespace {

/// A key that belongs to whichever widget has the focus; the menu only tells it.
QString withKey(const QString& text, const QString& key) {
  return text + QLatin1Char('\t') + key;
}

/// How close the way is seen, and what the rows of the ribbon are.
void addRibbonActions(QMenu& menu, WayRibbon& ribbon) {
  constexpr double kCloserFactor = 1.5;
  QAction* closer = menu.addAction(MainWindow::tr("&Closer along the way"), &ribbon,
                                   [&ribbon] { ribbon.zoomBy(kCloserFactor); });
  closer->setShortcuts(
      {QKeySequence(Qt::CTRL | Qt::Key_Plus), QKeySequence(Qt::CTRL | Qt::Key_Equal)});
  menu.addAction(MainWindow::tr("Farther along the wa&y"), QKeySequence(Qt::CTRL | Qt::Key_Minus),
                 &ribbon, [&ribbon] { ribbon.zoomBy(1 / kCloserFactor); });
  menu.addAction(MainWindow::tr("The whole way at o&nce"), QKeySequence(Qt::CTRL | Qt::Key_0), &ribbon,
                 &WayRibbon::showWholeWay);
  menu.addSeparator();
  QAction* byPart = menu.addAction(MainWindow::tr("Rows by &part"));
  byPart->setCheckable(true);
  RibbonHead& head = ribbon.head();
  QObject::connect(byPart, &QAction::toggled, &head, &RibbonHead::setByPart);
  QObject::connect(&head, &RibbonHead::byPartWanted, byPart, &QAction::setChecked);
  QAction* only = menu.addAction(MainWindow::tr("&Only rows of what is chosen"));
  only->setCheckable(true);
  QObject::connect(only, &QAction::toggled, &head.onlyBox(), &QCheckBox::setChecked);
  QObject::connect(&head.onlyBox(), &QCheckBox::toggled, only, &QAction::setChecked);
}

}  // namespace

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
  menu->addSeparator();
  addRibbonActions(*menu, *ribbon_);
  addMotionTo(*menu);
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

}  // namespace swingroom
