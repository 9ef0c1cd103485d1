#include "tests/app/pictures/motion_pictures.h"

#include <QTest>

#include "app/panels/way/line_of_steps.h"

namespace swingroom {

void takeMotion(Photographer& photographer) {
  Session& session = photographer.openSample("harbour_tug");
  MainWindow& window = photographer.window();
  window.leftColumn().showPage(LeftColumn::motion);
  session.stand().moveTo(0.25);
  photographer.take(QStringLiteral("motion"));
  // Joints moved by hand: what can be made of that.
  const auto head = session.scene()->assembly().findPart("head");
  if (head) session.choice().choosePart(*head);
  const auto joints = window.joints().model().rowCount();
  if (joints > 0) {
    const QModelIndex value = window.joints().model().index(0, 1);
    window.joints().model().setData(value, 35.0, Qt::EditRole);
  }
  photographer.take(QStringLiteral("motion_by_hand"));
  session.stand().moveTo(0.25);
  session.choice().clear();
  // A step taken out: the way is short, and says by what.
  window.motion().removeStep(4);
  QTest::qWaitFor([&] { return !session.problems().empty(); }, 10'000);
  photographer.take(QStringLiteral("motion_short"));
  session.document().undoStack().undo();
  QTest::qWaitFor([&] { return session.problems().empty(); }, 10'000);
  // A name in hand.
  LineOfSteps& line = window.ribbon().line();
  const auto labels = line.stepLabels();
  const QPoint from = labels.back().rect.center().toPoint();
  QTest::mousePress(&window.lineHandles(), Qt::LeftButton, {}, from);
  QTest::mouseMove(&window.lineHandles(), from - QPoint(60, 0));
  QTest::mouseMove(&window.lineHandles(), from - QPoint(320, 0));
  photographer.takeOnce(QStringLiteral("motion_drag"), Preferences::Look::light, QSize(1440, 900));
  QTest::keyClick(&window.lineHandles(), Qt::Key_Escape);
  QTest::mouseRelease(&window.lineHandles(), Qt::LeftButton, {}, from);
  window.lineHandles().editName(2);  // The window has its size by now: resizing ends the editor.
  photographer.takeOnce(QStringLiteral("motion_rename"), Preferences::Look::light,
                        QSize(1440, 900));
  window.leftColumn().showPage(LeftColumn::parts);
  if (head) window.partCard().openFor(*head, window.mapToGlobal(QPoint(260, 260)));
  photographer.takeWidget(QStringLiteral("part_card"), window.partCard());
  window.partCard().close();
}

}  // namespace swingroom
