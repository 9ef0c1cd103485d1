#include "tests/app/pictures/room_pictures.h"

#include <QMouseEvent>
#include <QTest>

namespace swingroom {
namespace {

bool waitFor(RoomBoard& board, RoomBoard::State state) {
  return QTest::qWaitFor([&] { return board.state() == state; }, 180'000);
}

/// Somewhere on the part that is in sight, `share` of the way through all such places.
std::optional<QPoint> paintedPlace(Viewport& view, double share) {
  std::vector<QPoint> places;
  for (int y = 20; y < view.height() - 20; y += 6) {
    for (int x = 20; x < view.width() - 20; x += 6) {
      if (view.pickPaint(QPointF(x, y))) places.emplace_back(x, y);
    }
  }
  if (places.empty()) return std::nullopt;
  return places[static_cast<std::size_t>(share * static_cast<double>(places.size() - 1))];
}

void pointAtPaint(Viewport& view, double share) {
  const auto place = paintedPlace(view, share);
  if (!place) return;
  QMouseEvent move(QEvent::MouseMove, *place, view.mapToGlobal(*place), Qt::NoButton, Qt::NoButton,
                   Qt::NoModifier);
  QCoreApplication::sendEvent(&view, &move);
  QTest::qWait(200);
}

void bringClose(MainWindow& window, PartId part) {
  const Scene& scene = *window.session().scene();
  const Pose X_WP = posesOf(scene.assembly(), window.session().stand().standing())[part.index];
  const auto& root = scene.geometry[part.index]->surface->tree.root();
  window.view()->bring(X_WP * root.centre, 1.1 * root.radius);
  QTest::qWait(400);
}

}  // namespace

void takeRoom(Photographer& photographer) {
  Session& session = photographer.openSample("harbour_tug");
  MainWindow& window = photographer.window();
  window.leftColumn().showPage(LeftColumn::room);
  photographer.take(QStringLiteral("room_nothing"));
  const auto head = session.scene()->assembly().findPart("head");
  if (!head) return;
  session.choice().choosePart(*head);
  bringClose(window, *head);
  QTest::qWait(500);
  window.roomPanel().look();
  QTest::qWaitFor([&] { return window.roomPanel().showsMap(); }, 60'000);
  QTest::qWait(600);
  photographer.take(QStringLiteral("room_looking"));
  waitFor(window.room(), RoomBoard::State::done);
  QTest::qWait(1000);
  pointAtPaint(*window.view(), 0.45);
  photographer.take(QStringLiteral("room_head"));
  window.roomPanel().placeButton().click();
  QTest::qWait(1500);
  photographer.take(QStringLiteral("room_least"));
}

}  // namespace swingroom
