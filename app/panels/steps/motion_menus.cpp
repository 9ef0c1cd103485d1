#include "app/panels/steps/motion_menus.h"

#include <QCoreApplication>
#include <QMenu>
#include <cmath>

#include "app/models/text.h"

namespace swingroom {
namespace {

struct MenuText {
  Q_DECLARE_TR_FUNCTIONS(MenuText)
};

/// `&` would underline the next letter.
QString plain(const std::string& name) {
  return qt(name).replace(QLatin1Char('&'), QStringLiteral("&&"));
}

/// Whether the shown way stands, at that instant, between the beads of a step.
bool isInside(const MotionEditor& editor, double instant) {
  const Stand& stand = editor.session().stand();
  const double at = instant * static_cast<double>(stand.steps());
  return std::abs(at - std::round(at)) > 1e-6;
}

}  // namespace

void fillModeMenu(QMenu& menu, MotionEditor& editor, StepTyping& typing, const std::string& mode,
                  const std::function<void()>& rename) {
  menu.addAction(MenuText::tr("Stand in it"), &editor, [&editor, mode] { editor.standIn(mode); });
  if (rename) menu.addAction(MenuText::tr("Rename\tF2"), &editor, rename);
  menu.addAction(MenuText::tr("Duplicate"), &editor,
                 [&editor, mode] { editor.duplicateMode(mode); });
  menu.addAction(MenuText::tr("Set to where it stands now"), &editor,
                 [&editor, mode] { editor.setModeHere(mode); });
  menu.addAction(MenuText::tr("New way on from it"), &typing,
                 [&typing, mode] { typing.beginWayFrom(mode); });
  menu.addSeparator();
  menu.addAction(MenuText::tr("Remove"), &editor, [&editor, mode] { editor.removeMode(mode); });
}

void fillWayMenu(QMenu& menu, MotionEditor& editor, const std::string& way,
                 const std::function<void()>& rename) {
  if (rename) menu.addAction(MenuText::tr("Rename\tF2"), &editor, rename);
  menu.addAction(MenuText::tr("Duplicate"), &editor, [&editor, way] { editor.duplicateWay(way); });
  menu.addAction(MenuText::tr("Add the way back"), &editor,
                 [&editor, way] { editor.reverseWay(way); });
  menu.addAction(MenuText::tr("Finish: add what it is short of"), &editor,
                 [&editor, way] { editor.finishWay(way); })
      ->setEnabled(!editor.shortBy(way).empty());
  menu.addSeparator();
  menu.addAction(MenuText::tr("Remove"), &editor, [&editor, way] { editor.removeWay(way); });
}

void fillStepMenu(QMenu& menu, MotionEditor& editor, std::size_t step, double instant,
                  const std::function<void()>& rename) {
  const DocumentSequence* way = editor.way();
  if (!way) return;
  const bool byHand = step < way->steps.size() && way->steps[step].replug;
  const bool isFree = step < way->steps.size() && way->steps[step].order == DocumentOrder::free;
  if (rename) menu.addAction(MenuText::tr("Rename\tF2"), &editor, rename);
  menu.addAction(MenuText::tr("Split here"), &editor,
                 [&editor, instant] { editor.splitAt(instant); })
      ->setEnabled(!byHand && isInside(editor, instant));
  menu.addAction(MenuText::tr("Join with the next"), &editor,
                 [&editor, step] { editor.joinStep(step); })
      ->setEnabled(step + 1 < way->steps.size());
  menu.addAction(MenuText::tr("Earlier"), &editor,
                 [&editor, step] { editor.moveStep(step, step - 1); })
      ->setEnabled(step > 0);
  menu.addAction(MenuText::tr("Later"), &editor,
                 [&editor, step] { editor.moveStep(step, step + 1); })
      ->setEnabled(step + 1 < way->steps.size());
  menu.addSeparator();
  menu.addAction(isFree ? MenuText::tr("Its joints go together")
                        : MenuText::tr("Its joints go in any order"),
                 &editor,
                 [&editor, step, isFree] {
                   editor.setStepOrder(step,
                                       isFree ? DocumentOrder::together : DocumentOrder::free);
                 })
      ->setEnabled(!byHand);
  menu.addAction(MenuText::tr("Set its end to where it stands now"), &editor,
                 [&editor, step] { editor.setStepEndHere(step); })
      ->setEnabled(!byHand);
  menu.addAction(MenuText::tr("New mode from here"), &editor,
                 [&editor, instant] { editor.addModeAt(instant); });
  menu.addSeparator();
  menu.addAction(MenuText::tr("Remove"), &editor, [&editor, step] { editor.removeStep(step); });
}

void fillNewWayMenu(QMenu& menu, MotionEditor& editor, StepTyping& typing) {
  const auto& modes = editor.document().modes;
  for (const DocumentMode& from : modes) {
    QMenu* sub = menu.addMenu(MenuText::tr("From %1").arg(plain(from.name)));
    for (const DocumentMode& to : modes) {
      if (to.name == from.name) continue;
      sub->addAction(MenuText::tr("to %1").arg(plain(to.name)), &editor,
                     [&editor, a = from.name, b = to.name] { editor.addWay(a, b); });
    }
    sub->addAction(MenuText::tr("on to a new mode"), &typing,
                   [&typing, a = from.name] { typing.beginWayFrom(a); });
  }
}

}  // namespace swingroom
