// A part's card and its name in the tree, by real mouse and keys.
#include <QLineEdit>
#include <QSpinBox>

#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

const DocumentPart& lidOf(Session& session) {
  return session.document().document().parts[1];
}

TEST_F(OpenWindow, APartsCardChangesWhatIsSaidOfItAndUndoBringsItBack) {
  open();
  session().choice().choosePart(part("lid"));
  hand_.key(QStringLiteral("alt+Return"));
  PartCard& card = window_->partCard();
  ASSERT_TRUE(soon([&] { return card.isVisible(); }));
  hand_.type(QStringLiteral("cover"));
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return lidOf(session()).name == "cover"; }));
  EXPECT_EQ(session().document().document().joints[0].child, "cover");
  hand_.key(QStringLiteral("Tab"));
  hand_.type(QStringLiteral("ABS"));
  hand_.key(QStringLiteral("Tab"));
  ASSERT_TRUE(soon([&] { return lidOf(session()).material == "ABS"; }));
  // A name that is taken is refused on the card; Escape takes nothing that is half typed.
  card.name().setFocus();
  card.name().selectAll();
  hand_.type(QStringLiteral("box"));
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return card.problem().isVisible(); }));
  hand_.type(QStringLiteral("xyz"));
  hand_.key(QStringLiteral("Escape"));
  ASSERT_TRUE(soon([&] { return !card.isVisible(); }));
  EXPECT_EQ(lidOf(session()).name, "cover");
  waitForCheck();
  while (session().document().undoStack().canUndo()) session().document().undoStack().undo();
  hand_.key(QStringLiteral("ctrl+s"));
  EXPECT_EQ(bytes(), original_);
}

TEST_F(OpenWindow, APartIsRenamedInTheTreeByF2) {
  open();
  QTreeView& tree = window_->parts().tree();
  session().choice().choosePart(part("lid"));
  tree.setFocus();
  hand_.key(QStringLiteral("F2"));
  ASSERT_TRUE(soon([&] { return tree.findChild<QLineEdit*>() != nullptr; }));
  hand_.type(QStringLiteral("cover"));
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return lidOf(session()).name == "cover"; }));
  ASSERT_TRUE(soon([&] { return !session().isLoading(); }));
  EXPECT_TRUE(session().board().isComplete()) << "a name is nothing to check";
  EXPECT_EQ(session().choice().part(), part("cover"));
}

}  // namespace
}  // namespace swingroom
