// One sitting at the window, by real mouse and keys: open, scrub, choose a finding, drag a joint to
// its stop, edit a step, undo, save, reopen. Figures are from the hatch box's README.
#include <QLineEdit>
#include <QListView>

#include "app/panels/parts/travel_slider.h"
#include "app/panels/way/line_of_steps.h"
#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

class Story : public OpenWindow {
 protected:
  void clickOnTheLine(double at) {
    const LineOfSteps& line = window_->ribbon().line();
    hand_.click(line, {window_->ribbon().axis().xAt(at), line.lineY()});
    EXPECT_NEAR(instant(), at, 1.01 / window_->ribbon().axis().width) << "within one pixel";
  }

  void scrub() {
    const LineOfSteps& line = window_->ribbon().line();
    const WayAxis& axis = window_->ribbon().axis();
    hand_.press(line, {axis.xAt(0.5), line.lineY()});
    hand_.moveTo(line, {axis.xAt(0.6), line.lineY()});
    hand_.moveTo(line, {axis.xAt(0.8), line.lineY()});
    hand_.release();
    EXPECT_NEAR(instant(), 0.8, 1.01 / axis.width);
  }

  /// Box and lid are 0.5 apart at the least, at instant 0.573910: tight for 0.6.
  void askForMoreAndChooseTheFinding() {
    session().choice().choosePair(part("box"), part("lid"));
    hand_.key(QStringLiteral("g"));
    hand_.type(QStringLiteral("0.6"));
    hand_.key(QStringLiteral("Return"));
    ASSERT_TRUE(soon([&] { return window_->findings().model().rowCount() == 1; }));
    session().choice().clear();
    QTest::qWait(200);  // The list moves up when the card goes.
    QListView& list = window_->findings().list();
    hand_.click(*list.viewport(), list.visualRect(list.model()->index(0, 0)).center());
    ASSERT_TRUE(session().choice().pair().has_value());
    EXPECT_NEAR(instant(), 0.573910, 1e-4);
    EXPECT_TRUE(window_->findings().card().story().figure.startsWith(QStringLiteral("0.50")));
  }

  void dragTheLidToItsStop() {
    clickOnTheLine(0);
    chooseJointsKnown("lid");
    TravelSlider& slider = *window_->joints().slider(0);
    const double y = slider.height() / 2.0;
    hand_.press(slider, {slider.xAt(slider.stand()), y});
    hand_.moveTo(slider, {slider.xAt(0.3), y});
    hand_.moveTo(slider, {slider.xAt(0.7), y});
    hand_.release();
    const JointId hinge = *session().scene()->assembly().findJoint("lid hinge");
    const double standsRad = session().stand().standing().values[hinge.index].x();
    EXPECT_NEAR(degFromRad(standsRad), keeperDeg(), kLidDeg);
  }

  void nameTheSecondStep(const QString& name) {
    clickOnTheLine(0.9);
    hand_.key(QStringLiteral("F2"));
    ASSERT_TRUE(soon([&] { return window_->lineHandles().nameEditor() != nullptr; }));
    hand_.type(name);
    hand_.key(QStringLiteral("Return"));
    ASSERT_TRUE(soon([&] { return lastStep() == name.toStdString(); }));
  }

  std::string lastStep() {
    return session().document().document().sequences.front().steps.back().name;
  }

  /// What was on disk at first, with one name in place of another.
  std::string originalWith(const std::string& from, const std::string& to) {
    std::string text = original_;
    const auto at = text.find('"' + from + '"');
    EXPECT_NE(at, std::string::npos);
    return text.replace(at + 1, from.size(), to);
  }
};

TEST_F(Story, OneSittingLeavesTheFileAsItWasButForWhatWasSaved) {
  open();
  scrub();
  askForMoreAndChooseTheFinding();
  dragTheLidToItsStop();
  nameTheSecondStep(QStringLiteral("lid over"));
  EXPECT_TRUE(window_->isWindowModified());

  hand_.key(QStringLiteral("ctrl+z"));
  hand_.key(QStringLiteral("ctrl+z"));
  EXPECT_FALSE(window_->isWindowModified());
  EXPECT_EQ(lastStep(), "lid up");
  hand_.key(QStringLiteral("ctrl+s"));
  EXPECT_EQ(bytes(), original_);

  nameTheSecondStep(QStringLiteral("lid over"));
  hand_.key(QStringLiteral("ctrl+s"));
  EXPECT_EQ(bytes(), originalWith("lid up", "lid over"));
  window_->open(QString::fromStdString(file_.string()));
  waitForCheck();
  EXPECT_EQ(lastStep(), "lid over");
  EXPECT_EQ(verdictOf("box", "lid"), Verdict::clear);
  EXPECT_FALSE(window_->isWindowModified());
}

}  // namespace
}  // namespace swingroom
