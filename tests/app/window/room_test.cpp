// A part's room in the whole window, by real mouse and keys, on boxes with a closed form
// (tests/app/support/rooms.h).
#include <QComboBox>
#include <QLabel>

#include "app/panels/room/room_panel.h"
#include "tests/app/support/rooms.h"
#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

class RoomWindow : public OpenWindow {
 protected:
  /// Until the room is known: longer than `soon`, for it is worked out behind all else.
  template <typename Condition>
  static bool inTime(Condition condition) {
    return QTest::qWaitFor(condition, 120'000);
  }
  void openPress() {
    window_->open(QString::fromStdString(writeRoomPress(press_).string()));
    waitForCheck();
    ASSERT_NE(session().scene(), nullptr);
    ASSERT_TRUE(session().scene()->assembly().findPart("sled"));
    view().lookFrom(Viewport::LookFrom::left);
    QTest::qWait(300);
  }
  Viewport& view() { return *window_->view(); }
  RoomBoard& board() { return window_->room(); }
  RoomPanel& panel() { return window_->roomPanel(); }

  /// Where (x, z) on the sled's side is seen from the front, as the assembly stands at the start.
  std::optional<QPointF> onSled(double x, double z) {
    constexpr double kSideYMm = 2;
    view().lookFrom(Viewport::LookFrom::front);
    QTest::qWait(300);
    const Vector3d p_W(x, kSideYMm, z);
    const Eigen::Vector2d pixel = view().projection().pixel(p_W);
    const QPointF place(std::round(pixel.x()), std::round(pixel.y()));
    const auto hit = view().pick(place);
    if (!hit || hit->part != part("sled") || (hit->p_W - p_W).norm() > 0.2) return std::nullopt;
    return place;
  }
  void lookByKey() {
    const auto place = onSled(16, 5);
    ASSERT_TRUE(place);
    hand_.click(view(), *place);
    ASSERT_TRUE(soon([&] { return session().choice().part() == part("sled"); }));
    hand_.key(QStringLiteral("r"));
    ASSERT_TRUE(inTime([&] { return board().state() == RoomBoard::State::done; }));
    ASSERT_TRUE(soon([&] {
      const auto pick = view().pickPaint(*place);
      return pick && pick->surface->pieces.size() == board().map()->places.size();
    }));
  }

  Bench press_ = Bench::press();
};

double figureIn(const QString& words) {
  const auto numbers = numbersIn(words.toStdString());
  return numbers.empty() ? -1 : numbers.front();
}

TEST_F(RoomWindow, AKeyLooksAtTheChosenPartsRoomAndThePointerReadsIt) {
  openPress();
  lookByKey();
  EXPECT_EQ(window_->leftColumn().page(), LeftColumn::room);
  // 1.5 behind the front and 4 up: 2 + 1.5 or 8.2 - 4, whichever is less, less 0.1.
  for (const auto& [x, z] : {std::pair(15.5, 4.0), {17.0, 7.0}}) {
    const auto place = onSled(x, z);
    ASSERT_TRUE(place);
    hand_.moveTo(view(), *place);
    ASSERT_TRUE(soon([&] { return view().paintTool().words().contains(QStringLiteral("room")); }));
    const auto pick = view().pickPaint(*place);
    ASSERT_TRUE(pick);
    const RoomPlace& piece = board().map()->places[pick->piece];
    double wide = 0;
    for (const Vector3d& corner : piece.corners_P)
      wide = std::max(wide, (corner - piece.corners_P[0]).norm());
    const double read = figureIn(view().paintTool().words());
    const double form = sledRoomMm(pick->p_W);
    EXPECT_LE(read, form + 1e-5) << "never more than there is";
    EXPECT_GE(read, form - wide - 0.1 - 0.01) << "to the piece and the resolution";
    EXPECT_TRUE(view().paintTool().words().contains(z > 6 ? QStringLiteral("next to rail")
                                                          : QStringLiteral("next to block")))
        << view().paintTool().words().toStdString();
  }
}

TEST_F(RoomWindow, AClickOnAPlaceStandsWhereItHasLeast) {
  openPress();
  lookByKey();
  const auto place = onSled(15.5, 4.0);
  ASSERT_TRUE(place);
  hand_.click(view(), *place);
  ASSERT_TRUE(soon([&] { return session().choice().pair().has_value(); }));
  EXPECT_TRUE(session().choice().isChosen(part("block")));
  EXPECT_TRUE(session().choice().isChosen(part("sled")));
  // The sled goes 2 mm towards it; the map's 0.1 mm are a twentieth of that way.
  EXPECT_NEAR(instant(), 1, 0.05) << "the block is nearest at the end";
  EXPECT_FALSE(view().paint().parts.empty()) << "the map stays";
}

TEST_F(RoomWindow, ThePageSaysTheLeastAndStandsThere) {
  openPress();
  lookByKey();
  const double least = figureIn(panel().figure().text());
  EXPECT_LE(least, 0.1 + 1e-5);
  EXPECT_GE(least, 0.0);
  EXPECT_TRUE(panel().where().text().startsWith(QStringLiteral("next to rail")));
  hand_.click(panel().placeButton(), QRectF(panel().placeButton().rect()).center());
  ASSERT_TRUE(soon([&] { return session().choice().pair().has_value(); }));
  EXPECT_TRUE(session().choice().isChosen(part("rail")));
}

TEST_F(RoomWindow, AnotherPageTakesThePaintAwayAndTheDocumentsChangeIsTold) {
  openPress();
  lookByKey();
  window_->leftColumn().showPage(LeftColumn::parts);
  EXPECT_TRUE(soon([&] { return view().paint().parts.empty(); }));
  window_->leftColumn().showPage(LeftColumn::room);
  EXPECT_TRUE(soon([&] { return !view().paint().parts.empty(); }));
  AssemblyDocument changed = session().document().document();
  changed.requiredGap = 0.15;
  session().document().edit(QStringLiteral("gap"), changed);
  ASSERT_TRUE(soon([&] { return board().isOld(); }));
  EXPECT_TRUE(panel().told().text().contains(QStringLiteral("before its last change")));
  EXPECT_FALSE(view().paint().parts.empty()) << "what was known is still seen";
  EXPECT_FALSE(panel().placeButton().isEnabled());
  hand_.click(panel().lookButton(), QRectF(panel().lookButton().rect()).center());
  ASSERT_TRUE(
      inTime([&] { return board().state() == RoomBoard::State::done && !board().isOld(); }));
  EXPECT_LE(figureIn(panel().figure().text()), 0.05 + 1e-5);
}

// The tug's head takes seconds: it can be stopped in time.
TEST_F(RoomWindow, StopEndsItAndKeepsWhatIsKnown) {
  window_->open(QStringLiteral(SWINGROOM_SOURCE "/sample_assemblies/harbour_tug/"
                                                "harbour_tug.swing.json"));
  ASSERT_TRUE(soon([&] { return session().scene() && !session().isLoading(); }));
  session().stopCheck();
  session().choice().choosePart(part("head"));
  panel().resolution().setCurrentIndex(1);
  window_->activateWindow();
  hand_.key(QStringLiteral("r"));
  ASSERT_TRUE(soon([&] { return board().state() == RoomBoard::State::looking; }));
  ASSERT_TRUE(soon([&] { return panel().lookButton().text() == QStringLiteral("Stop"); }));
  hand_.click(panel().lookButton(), QRectF(panel().lookButton().rect()).center());
  ASSERT_TRUE(soon([&] { return board().state() == RoomBoard::State::stopped; }));
  EXPECT_EQ(panel().lookButton().text(), QStringLiteral("Go on"));
}

}  // namespace
}  // namespace swingroom
