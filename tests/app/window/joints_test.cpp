// Joints moved by real mouse and keys, on the hatch box: its closed forms are in its README.
#include <QCheckBox>
#include <QDoubleSpinBox>

#include "app/panels/findings/near_list.h"
#include "app/panels/parts/joint_row.h"
#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

class JointsWindow : public OpenWindow {
 protected:
  void chooseAndKnow(const char* name) {
    open();
    chooseJointsKnown(name);
  }
  double valueOf(const char* joint) {
    return session()
        .stand()
        .standing()
        .values[session().scene()->assembly().findJoint(joint)->index]
        .x();
  }
  double lidDeg() { return degFromRad(valueOf("lid hinge")); }
  TravelSlider& slider() { return *window_->joints().slider(0); }
  void dragTo(double share) {
    const double y = slider().height() / 2.0;
    hand_.press(slider(), {slider().xAt(slider().stand()), y});
    hand_.moveTo(slider(), {slider().xAt((slider().stand() + share) / 2), y});
    hand_.moveTo(slider(), {slider().xAt(share), y});
  }
};

TEST_F(JointsWindow, DraggedSliderStopsWhereTheBoltMeetsTheKeeper) {
  chooseAndKnow("lid");
  dragTo(0.8);
  EXPECT_NEAR(lidDeg(), keeperDeg(), kLidDeg);
  EXPECT_TRUE(window_->joints().row(0).words().text().contains(QStringLiteral("box touches bolt")));
  hand_.release();
  EXPECT_NEAR(lidDeg(), keeperDeg(), kLidDeg);
  EXPECT_NEAR(slider().marks().freeTo.value() * 110, keeperDeg(), kLidDeg);
  EXPECT_TRUE(slider().marks().touchesAbove);
}

TEST_F(JointsWindow, WithoutTheTickItGoesPastAndByNumberTooWithEscapeItComesBack) {
  chooseAndKnow("lid");
  QCheckBox& stops = window_->joints().stopsBox();
  ASSERT_TRUE(stops.isChecked());
  hand_.click(stops, {8, stops.height() / 2.0});
  ASSERT_FALSE(stops.isChecked());
  dragTo(0.5);
  EXPECT_NEAR(lidDeg(), 55, 110.0 / slider().width());
  hand_.key(QStringLiteral("Escape"));
  EXPECT_EQ(lidDeg(), 0);
  EXPECT_FALSE(session().stand().isByHand());
  hand_.release();
  EXPECT_EQ(lidDeg(), 0);
  hand_.click(stops, {8, stops.height() / 2.0});
  QDoubleSpinBox& box = window_->joints().row(0).number();
  box.setFocus();
  box.selectAll();
  hand_.type(QStringLiteral("40"));
  hand_.key(QStringLiteral("Return"));
  EXPECT_NEAR(lidDeg(), 40, 1e-9);
}

TEST_F(JointsWindow, UnboltedLidIsFreeOverAllItsRange) {
  chooseAndKnow("bolt");
  dragTo(1);
  hand_.release();
  EXPECT_EQ(valueOf("bolt slide"), 8);
  session().choice().choosePart(part("lid"));
  ASSERT_TRUE(soon([&] { return slider().marks().freeTo == 1.0; }));
  EXPECT_FALSE(slider().marks().touchesAbove);
  EXPECT_TRUE(window_->joints().row(0).words().text().isEmpty());
}

TEST_F(JointsWindow, NearestPairsAreChosenByKeys) {
  chooseAndKnow("bolt");
  NearList& near = window_->joints().nearList();
  ASSERT_TRUE(soon([&] { return near.rows().size() >= 2; }));
  near.setFocus();
  hand_.key(QStringLiteral("Down"));
  hand_.key(QStringLiteral("Down"));
  ASSERT_TRUE(near.currentIndex().isValid());
  const NearRow row = near.rows()[static_cast<std::size_t>(near.currentIndex().row())];
  EXPECT_TRUE(near.currentIndex().data().toString().contains(row.figure))
      << "what a screen reader says";
  hand_.key(QStringLiteral("Return"));
  EXPECT_EQ(session().choice().pair(), row.pair);
}

}  // namespace
}  // namespace swingroom
