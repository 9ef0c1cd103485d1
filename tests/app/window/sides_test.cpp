// One more of a part, removing it, and the other side, by real mouse and keys, on the hatch box.
#include <QLineEdit>

#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

class SidesWindow : public OpenWindow {
 protected:
  const AssemblyDocument& document() { return session().document().document(); }
  const DocumentPart* written(const char* name) { return edits::findNamed(document().parts, name); }
  void settle() {
    ASSERT_TRUE(soon([&] { return !session().isLoading(); }));
  }
  void expectUndone() {
    while (session().document().undoStack().canUndo()) session().document().undoStack().undo();
    settle();
    window_->activateWindow();  // No window manager gives the focus back.
    ASSERT_TRUE(soon([&] { return window_->isActiveWindow(); }));
    hand_.key(QStringLiteral("ctrl+s"));
    EXPECT_EQ(bytes(), original_);
  }
};

TEST_F(SidesWindow, OneMoreOfAPartStandsWhereTheNumbersSay) {
  open();
  session().choice().choosePart(part("bolt"));
  hand_.key(QStringLiteral("ctrl+d"));
  PlaceForm& form = window_->instances().placeForm();
  ASSERT_TRUE(soon([&] { return form.isVisible() && form.name().hasFocus(); }));
  EXPECT_EQ(form.name().text(), QStringLiteral("bolt 2")) << "a free name is offered";
  hand_.type(QStringLiteral("spare bolt"));
  for (const char* number : {"60", "0.5", "7.25"}) {
    hand_.key(QStringLiteral("Tab"));
    hand_.key(QStringLiteral("ctrl+a"));
    hand_.type(QString::fromLatin1(number));
  }
  hand_.key(QStringLiteral("Tab"));
  hand_.key(QStringLiteral("ctrl+a"));
  hand_.type(QStringLiteral("90"));
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return written("spare bolt") != nullptr; }));
  const DocumentPart& spare = *written("spare bolt");
  EXPECT_EQ(spare.stages, written("bolt")->stages);
  EXPECT_EQ(spare.placement->at, (ThreeNumbers{60, 0.5, 7.25}));
  // A quarter turn about z as a quaternion: cos 45, 0, 0, sin 45 degrees.
  EXPECT_NEAR(spare.placement->turn[0], std::sqrt(0.5), 1e-12);
  EXPECT_NEAR(spare.placement->turn[3], std::sqrt(0.5), 1e-12);
  settle();
  EXPECT_TRUE(session().problems().empty());
  expectUndone();
}

TEST_F(SidesWindow, ARemovedPartTakesItsJointsAndUndoBringsThemBack) {
  open();
  const std::size_t joints = document().joints.size();
  session().choice().choosePart(part("bolt"));
  hand_.key(QStringLiteral("ctrl+Delete"));
  ASSERT_TRUE(soon([&] { return written("bolt") == nullptr; }));
  EXPECT_LT(document().joints.size(), joints);
  waitForCheck();
  EXPECT_TRUE(session().problems().empty());
  EXPECT_EQ(session().scene()->assembly().parts().size(), 2u);
  expectUndone();
}

/// In a plane 100 mm to the side all of it stands on one side: the whole box once more, mirrored,
/// and what clashes or is tight there is so here.
TEST_F(SidesWindow, TheOtherSideIsMadeAndJudgedAsThisOne) {
  open();
  session().choice().clear();
  hand_.key(QStringLiteral("ctrl+shift+d"));
  SideForm& form = window_->instances().sideForm();
  ASSERT_TRUE(soon([&] { return form.isVisible() && form.isActiveWindow(); }));
  QDoubleSpinBox& at = form.at();
  at.setFocus();
  at.selectAll();
  hand_.type(QStringLiteral("100"));
  hand_.key(QStringLiteral("Tab"));
  ASSERT_TRUE(soon([&] { return form.says().contains(QStringLiteral("3 parts")); }))
      << form.says().toStdString();
  hand_.click(form.make(), QRectF(form.make().rect()).center());
  ASSERT_TRUE(soon([&] { return document().parts.size() == 6; }));
  EXPECT_FALSE(form.isVisible());
  waitForCheck();
  EXPECT_TRUE(session().problems().empty());
  const char* const pairs[][2] = {{"box", "lid"}, {"box", "bolt"}, {"lid", "bolt"}};
  for (const auto& [a, b] : pairs) {
    const std::string here = std::string(" ") + form.here().currentText().toStdString();
    const std::string there = std::string(" ") + form.there().currentText().toStdString();
    const auto named = [&](const char* name, const std::string& word) {
      std::string whole = name + word;
      std::replace(whole.begin(), whole.end(), ' ', '_');
      return whole;
    };
    EXPECT_EQ(verdictOf(named(a, here).c_str(), named(b, here).c_str()),
              verdictOf(named(a, there).c_str(), named(b, there).c_str()))
        << a << " and " << b;
  }
  expectUndone();
}

TEST_F(SidesWindow, TheFormSaysWhatCannotBe) {
  open();
  session().choice().clear();
  hand_.key(QStringLiteral("ctrl+shift+d"));
  SideForm& form = window_->instances().sideForm();
  ASSERT_TRUE(soon([&] { return form.isVisible() && form.isActiveWindow(); }));
  hand_.click(form.tickNone(), QRectF(form.tickNone().rect()).center());
  ASSERT_TRUE(soon([&] { return form.says().contains(QStringLiteral("choose the parts")); }));
  EXPECT_FALSE(form.make().isEnabled());
  hand_.key(QStringLiteral("Escape"));
  ASSERT_TRUE(soon([&] { return !form.isVisible(); }));
  EXPECT_EQ(document().parts.size(), 3u);
}

}  // namespace
}  // namespace swingroom
