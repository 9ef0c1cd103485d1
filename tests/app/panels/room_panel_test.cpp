#include "app/panels/room/room_panel.h"

#include <gtest/gtest.h>

#include <QAccessible>
#include <QComboBox>
#include <QLabel>
#include <QPushButton>

#include "app/panels/room/growth_section.h"
#include "app/panels/room/space_section.h"
#include "app/panels/theme.h"
#include "tests/app/panels/picture.h"
#include "tests/app/panels/wcag.h"
#include "tests/app/support/rooms.h"
#include "tests/app/support/wait.h"

// The page of a part's room, without a window. Figures by the closed form of
// tests/app/support/rooms.h: the sled has least room under the rail, 0.1 mm.
namespace swingroom {
namespace {

constexpr int kNarrowestPx = 212;  ///< The left column in a small window.

class RoomPage : public ::testing::Test {
 protected:
  RoomPage() {
    panel_.addSection(growth_);
    panel_.addSection(spaces_);
    panel_.resize(kNarrowestPx, 420);
    panel_.show();
  }
  void lookAtSled() {
    ASSERT_TRUE(session_.open(writeRoomPress(press_)).empty());
    ASSERT_TRUE(waitUntilQuiet(session_));
    session_.choice().choosePart(part(*session_.scene(), "sled"));
    panel_.look();
    ASSERT_TRUE(waitUntil([&] { return board_.state() == RoomBoard::State::done; }));
  }

  Bench press_ = Bench::press();
  Session session_{testReader()};
  RoomBoard board_{session_};
  GrowthBoard growthBoard_{session_};
  RoomPanel panel_{session_, board_};
  GrowthSection* growth_ = new GrowthSection(session_, growthBoard_, &panel_);
  SpaceSection* spaces_ = new SpaceSection(&panel_);
};

TEST_F(RoomPage, WithNothingOpenItSaysWhatItIsForAndOffersNothing) {
  EXPECT_FALSE(panel_.told().text().isEmpty());
  EXPECT_FALSE(panel_.lookButton().isEnabled());
  EXPECT_FALSE(panel_.figure().isVisible());
  EXPECT_FALSE(growth_->isVisible());
  EXPECT_FALSE(panel_.showsMap());
}

TEST_F(RoomPage, SaysTheLeastAndWhatStopsIt) {
  lookAtSled();
  EXPECT_TRUE(panel_.showsMap());
  const auto figures = numbersIn(panel_.figure().text().toStdString());
  ASSERT_EQ(figures.size(), 1u);
  EXPECT_LE(figures[0], 0.1);
  EXPECT_GE(figures[0], 0.0);
  EXPECT_TRUE(panel_.where().text().startsWith(QStringLiteral("next to rail")))
      << panel_.where().text().toStdString();
  EXPECT_EQ(panel_.parts().currentText(), QStringLiteral("sled"));
  EXPECT_EQ(panel_.told().text(), QStringLiteral("known to 0.1 mm"));
  EXPECT_FALSE(panel_.lookButton().isVisible()) << "there is nothing to ask for";
}

TEST_F(RoomPage, IsAboutThePartThatWasChosenLast) {
  lookAtSled();
  session_.choice().choosePart(part(*session_.scene(), "rail"));
  EXPECT_FALSE(panel_.showsMap());
  EXPECT_EQ(panel_.parts().currentText(), QStringLiteral("rail"));
  EXPECT_TRUE(panel_.lookButton().isVisible());
  session_.choice().clear();
  EXPECT_TRUE(panel_.showsMap()) << "of what was looked at";
}

TEST_F(RoomPage, GrowthIsSaidWithWhatStopsIt) {
  lookAtSled();
  growth_->showPart(part(*session_.scene(), "sled"));
  growth_->look();
  ASSERT_TRUE(waitUntil([&] { return !growthBoard_.isLooking(); }));
  // 3 mm from its middle to the top, which may come 0.1 nearer to the rail: 1.0333.
  const auto scale = numbersIn(growth_->scale().text().toStdString());
  ASSERT_EQ(scale.size(), 1u);
  EXPECT_LE(scale[0], 1.0333);
  EXPECT_GT(scale[0], 1.02);
  EXPECT_TRUE(growth_->scaleWhere().text().startsWith(QStringLiteral("stopped by rail")));
  const auto offset = numbersIn(growth_->offset().text().toStdString());
  ASSERT_EQ(offset.size(), 1u);
  EXPECT_LE(offset[0], 0.1);
  EXPECT_GT(offset[0], 0.05);
}

TEST_F(RoomPage, FitsTheNarrowestColumnAndItsFigureIsPainted) {
  lookAtSled();
  EXPECT_LE(panel_.minimumSizeHint().width(), kNarrowestPx);
  const QImage picture = pictureOf(panel_.figure());
  int strong = 0;
  for (int y = 0; y < picture.height(); ++y) {
    for (int x = 0; x < picture.width(); ++x)
      strong += contrast(picture.pixelColor(x, y), theme().panel) >= kText;
  }
  EXPECT_GT(strong, 100);
}

TEST_F(RoomPage, EveryControlHasAName) {
  lookAtSled();
  for (QWidget* widget : panel_.findChildren<QWidget*>()) {
    if (widget->focusPolicy() == Qt::NoFocus || qobject_cast<QLabel*>(widget)) continue;
    if (widget->inherits("QComboBoxPrivateContainer") || widget->inherits("QComboBoxListView"))
      continue;
    QAccessibleInterface* spoken = QAccessible::queryAccessibleInterface(widget);
    ASSERT_NE(spoken, nullptr) << widget->metaObject()->className();
    const auto* button = qobject_cast<QPushButton*>(widget);
    if (button && !button->isVisibleTo(&panel_)) continue;
    EXPECT_FALSE(spoken->text(QAccessible::Name).isEmpty()) << widget->metaObject()->className();
  }
}

}  // namespace
}  // namespace swingroom
