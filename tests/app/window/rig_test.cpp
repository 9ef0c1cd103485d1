// Joints by picking and by the page of the rig, by real mouse and keys, on the hatch box without its
// joints: pins of 4 mm about the line through (0, 0, 24) along x, meshed with 24 sides (README of
// the sample).
#include <QComboBox>
#include <QLineEdit>

#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

constexpr double kPinMm = 2, kAxisZMm = 24;

class RigWindow : public OpenWindow {
 protected:
  void openBare() {
    open();
    AssemblyDocument bare = session().document().document();
    bare.joints.clear(), bare.modes.clear(), bare.sequences.clear(), bare.pairs.clear();
    session().document().edit(QStringLiteral("bare"), bare);
    ASSERT_TRUE(soon([&] {
      return session().scene() && session().scene()->assembly().joints().empty();
    }));
    window_->view()->lookFrom(Viewport::LookFrom::threeQuarter);
    QTest::qWait(100);
  }
  Viewport& view() { return *window_->view(); }
  JointCard& card() { return window_->rigTool()->card(); }

  /// A place in the view where `holds` is so of what is seen there.
  template <typename Holds>
  std::optional<QPointF> seen(Holds holds) {
    constexpr int kBarPx = 60;  // What lies over the view at its top.
    for (int y = kBarPx; y < view().height(); y += 3) {
      for (int x = 8; x < view().width(); x += 3) {
        if (card().isOpen() && card().geometry().contains(x, y)) continue;
        const auto hit = view().pick(QPointF(x, y));
        if (hit && holds(*hit)) return QPointF(x, y);
      }
    }
    return std::nullopt;
  }
  std::optional<QPointF> onPin() {
    return seen([&](const ViewPick& hit) {
      const double off = std::hypot(hit.p_W.y(), hit.p_W.z() - kAxisZMm);
      return hit.part == part("lid") && std::abs(off - kPinMm) < 0.03 &&
             std::abs(hit.p_W.x()) > 20.5 && std::abs(hit.p_W.x()) < 26.5;
    });
  }
  const std::vector<DocumentJoint>& joints() { return session().document().document().joints; }
};

std::vector<double> numbers(const QString& text) {
  std::vector<double> found;
  for (const QString& word : text.split(QLatin1Char(','))) found.push_back(word.toDouble());
  return found;
}

TEST_F(RigWindow, AClickOnAPinGivesItsAxisAndTheNextClickWhatItHangsOn) {
  openBare();
  hand_.key(QStringLiteral("j"));
  ASSERT_TRUE(soon([&] { return card().isOpen(); }));
  // From a side where a pin is seen.
  std::optional<QPointF> pin = onPin();
  for (const auto side : {Viewport::LookFrom::left, Viewport::LookFrom::right,
                          Viewport::LookFrom::below, Viewport::LookFrom::back}) {
    if (pin) break;
    view().lookFrom(side);
    QTest::qWait(100);
    pin = onPin();
  }
  ASSERT_TRUE(pin.has_value());
  hand_.moveTo(view(), *pin);
  ASSERT_TRUE(soon([&] { return window_->rigTool()->under().has_value(); }));
  EXPECT_NEAR(window_->rigTool()->under()->radiusMm, kPinMm, 2e-6) << "STL is float32";
  EXPECT_TRUE(view().picking().words().contains(QStringLiteral("pin 4.00 mm")))
      << view().picking().words().toStdString();
  EXPECT_EQ(view().guides().axes.size(), 1u);
  hand_.click(view(), *pin);
  ASSERT_TRUE(soon([&] { return card().click() == JointCard::Click::parent; }));
  EXPECT_EQ(card().part().currentText(), QStringLiteral("lid"));
  const auto through = numbers(card().through().text()), along = numbers(card().along().text());
  ASSERT_EQ(through.size(), 3u);
  EXPECT_NEAR(through[1], 0, 1e-4);
  EXPECT_NEAR(through[2], kAxisZMm, 1e-4);
  EXPECT_EQ(along, (std::vector<double>{1, 0, 0}));
  const auto box = seen([&](const ViewPick& hit) { return hit.part == part("box"); });
  ASSERT_TRUE(box.has_value());
  hand_.click(view(), *box);
  ASSERT_TRUE(soon([&] { return card().on().currentText() == QStringLiteral("box"); }));
  hand_.click(card().range(), QRectF(card().range().rect()).center());
  hand_.type(QStringLiteral("0 to 110"));
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return joints().size() == 1; }));
  EXPECT_EQ(joints()[0].type, JointType::hinge);
  EXPECT_EQ(joints()[0].child, "lid");
  EXPECT_EQ(joints()[0].parent, "box");
  EXPECT_EQ(joints()[0].range, DocumentRange(TwoNumbers{0, 110}));
  EXPECT_FALSE(card().isOpen());
  EXPECT_FALSE(view().picking().isOn());
  waitForCheck();
  view().setFocus();
  hand_.key(QStringLiteral("ctrl+z"));
  EXPECT_TRUE(joints().empty());
}

TEST_F(RigWindow, AJointIsWrittenInNumbersByKeysAlone) {
  openBare();
  session().choice().choosePart(part("bolt"));
  hand_.key(QStringLiteral("j"));
  ASSERT_TRUE(soon([&] { return card().isOpen(); }));
  EXPECT_EQ(card().part().currentText(), QStringLiteral("bolt"));
  card().typeButton(JointType::hinge).setFocus();
  hand_.key(QStringLiteral("Right"));
  hand_.key(QStringLiteral("space"));
  ASSERT_EQ(card().type(), JointType::slide);
  EXPECT_FALSE(card().through().isVisible());
  card().on().setFocus();
  hand_.type(QStringLiteral("lid"));
  EXPECT_EQ(card().on().currentText(), QStringLiteral("lid"));
  card().along().setFocus();
  hand_.key(QStringLiteral("ctrl+a"));
  hand_.type(QStringLiteral("0 1 0"));
  card().name().setFocus();
  hand_.type(QStringLiteral("bolt slide"));
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return joints().size() == 1; }));
  EXPECT_EQ(joints()[0].name, "bolt slide");
  EXPECT_EQ(joints()[0].type, JointType::slide);
  EXPECT_EQ(joints()[0].parent, "lid");
  EXPECT_EQ(*joints()[0].along, (ThreeNumbers{0, 1, 0}));
}

TEST_F(RigWindow, WhatIsNoAxisIsToldAndEscapeLeavesWithNothingChanged) {
  openBare();
  const AssemblyDocument before = session().document().document();
  hand_.key(QStringLiteral("j"));
  ASSERT_TRUE(soon([&] { return card().isOpen(); }));
  card().along().setFocus();
  hand_.key(QStringLiteral("ctrl+a"));
  hand_.type(QStringLiteral("0 1"));
  hand_.key(QStringLiteral("Return"));
  EXPECT_TRUE(card().words().text().contains(QStringLiteral("Which part")));
  card().setPart(QStringLiteral("lid"));
  hand_.key(QStringLiteral("Return"));
  EXPECT_TRUE(card().words().text().contains(QStringLiteral("three numbers")));
  hand_.key(QStringLiteral("Escape"));
  EXPECT_FALSE(card().isOpen());
  EXPECT_TRUE(session().document().document() == before);
}

TEST_F(RigWindow, JointsThatAreThereAreEditedReversedAndRemovedByTheirRows) {
  open();
  window_->leftColumn().showPage(LeftColumn::rig);
  RigPanel& page = window_->rigPanel();
  ASSERT_TRUE(soon([&] {
    const RigFinder& finder = window_->rig().finder();
    return finder.isCurrent() && !finder.isLooking() && page.rows().size() == 2;
  }));
  QTest::qWait(100);  // Until the rows are laid out.
  RigRowView& slide = *page.rows()[1];
  EXPECT_EQ(slide.row().title, QStringLiteral("bolt slide"));
  EXPECT_EQ(slide.row().fact, QStringLiteral("slide on lid"));
  hand_.click(slide, {40, 10});
  ASSERT_TRUE(soon([&] { return slide.isUnfolded(); }));
  EXPECT_EQ(session().choice().part(), part("bolt"));
  EXPECT_EQ(view().guides().parts.size(), 2u);
  slide.setFocus();
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return card().isOpen(); }));
  // Free over all its range (README): to the stops is what it has.
  ASSERT_TRUE(soon([&] { return card().stops().isEnabled(); }));
  hand_.click(card().stops(), QRectF(card().stops().rect()).center());
  EXPECT_EQ(card().range().text(), QStringLiteral("0 to 8"));
  hand_.key(QStringLiteral("Escape"));
  ASSERT_FALSE(card().isOpen());
  slide.setFocus();
  hand_.key(QStringLiteral("Delete"));
  ASSERT_TRUE(soon([&] { return joints().size() == 1; }));
  EXPECT_EQ(joints()[0].name, "lid hinge");
  hand_.key(QStringLiteral("ctrl+z"));
  EXPECT_EQ(joints().size(), 2u);
}

TEST_F(RigWindow, StepsAreTypedIntoANewWay) {
  openBare();
  AssemblyDocument document = session().document().document();
  DocumentJoint hinge;
  hinge.name = "lid hinge", hinge.type = JointType::hinge;
  hinge.parent = "box", hinge.child = "lid";
  hinge.through = ThreeNumbers{0, 0, 24};
  hinge.along = ThreeNumbers{-1, 0, 0};
  document.joints.push_back(hinge);
  session().document().edit(QStringLiteral("hinge"), document);
  ASSERT_TRUE(soon([&] { return session().scene()->assembly().joints().size() == 1; }));
  hand_.key(QStringLiteral("shift+t"));
  StepLine& line = window_->motionPanel().stepLine();
  ASSERT_TRUE(soon([&] { return line.line().hasFocus(); }));
  hand_.type(QStringLiteral("lod 30"));
  hand_.key(QStringLiteral("Return"));
  EXPECT_TRUE(line.problem().contains(QStringLiteral("names no joint")));
  hand_.key(QStringLiteral("Escape"));
  hand_.type(QStringLiteral("ajar: lid 30"));
  hand_.key(QStringLiteral("Return"));
  const AssemblyDocument& now = session().document().document();
  ASSERT_TRUE(soon([&] { return now.sequences.size() == 1 && line.line().text().isEmpty(); }));
  EXPECT_EQ(now.sequences[0].steps.at(0).name, "ajar");
  EXPECT_EQ(now.modes.size(), 2u);
  EXPECT_EQ(now.modes[1].values->at("lid hinge"), DocumentValue(30.0));
  ASSERT_TRUE(soon([&] { return session().scene()->ways[0].name == "new way" && instant() == 1; }));
  hand_.type(QStringLiteral("lid 110"));
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return now.sequences[0].steps.size() == 2; }));
  waitForCheck();
  EXPECT_EQ(instant(), 1);
  EXPECT_TRUE(session().problems().empty());
}

}  // namespace
}  // namespace swingroom
