// The unit of the part files and the size of the assembly, by real mouse and keys.
#include <QAction>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QPushButton>
#include <QRadioButton>
#include <QTimer>

#include "app/window/forms/size_form.h"
#include "app/window/forms/unit_form.h"
#include "app/window/menus/size_actions.h"
#include "core/files/document/scaled_document.h"
#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

/// Calls `work` with the form that `action` opens, once it is on the screen; back when it is
/// closed.
template <typename Form, typename Work>
void inForm(QWidget& window, QAction& action, Work work) {
  bool worked = false;
  QTimer::singleShot(0, &window, [&] {
    Form* form = nullptr;
    const bool shown = QTest::qWaitFor(
        [&] { return (form = window.findChild<Form*>()) != nullptr && form->isActiveWindow(); },
        20'000);
    worked = shown;
    if (shown) work(*form);
    if (form != nullptr && form->isVisible() && !shown) form->reject();
  });
  action.trigger();
  EXPECT_TRUE(worked);
}

// Twice as high: the factor that is typed is what the file gets.
TEST_F(OpenWindow, TheAssemblyBecomesAsHighAsIsTypedAndTheCheckSaysWhatChanged) {
  open();
  const AssemblyDocument before = session().document().document();
  double height = 0;
  inForm<SizeForm>(*window_, window_->sizes().size(), [&](SizeForm& form) {
    height = form.wanted().value();
    EXPECT_FALSE(form.scaleButton().isEnabled()) << "nothing changes yet";
    form.wanted().setFocus();
    form.wanted().selectAll();
    hand_.type(QString::number(2 * height, 'f', 2));
    ASSERT_TRUE(soon([&] { return form.scaleButton().isEnabled(); }));
    EXPECT_NEAR(form.times().value(), 2, 1e-4);
    hand_.click(form.scaleButton(), form.scaleButton().rect().center());
    soon([&] { return !form.isVisible(); });
  });
  ASSERT_GT(height, 0);
  const AssemblyDocument changed = session().document().document();
  EXPECT_NEAR(changed.parts[0].scale, 2, 0.01 / height) << "typed to a hundredth of a mm";
  EXPECT_EQ(changed, *scaledDocument(before, changed.parts[0].scale));
  EXPECT_EQ(changed.requiredGap, before.requiredGap);
  waitForCheck();
  ASSERT_TRUE(soon([&] { return window_->problems().isVisible(); }));
  EXPECT_FALSE(window_->problems().text().isEmpty());
  session().document().undoStack().undo();
  waitForCheck();
  EXPECT_TRUE(session().document().document() == before) << "one step of undo";
  hand_.key(QStringLiteral("ctrl+s"));
  EXPECT_EQ(bytes(), original_);
}

TEST_F(OpenWindow, EscapeLeavesTheSizeAsItIs) {
  open();
  inForm<SizeForm>(*window_, window_->sizes().size(), [&](SizeForm& form) {
    form.times().setFocus();
    form.times().selectAll();
    hand_.type(QStringLiteral("3"));
    soon([&] { return form.factor() == 3; });
    EXPECT_EQ(form.factor(), 3);
    hand_.key(QStringLiteral("Escape"));
    soon([&] { return !form.isVisible(); });
  });
  EXPECT_FALSE(session().document().isModified());
}

TEST_F(OpenWindow, AnotherUnitForAllPartsIsOneClickAndOneStepOfUndo) {
  open();
  inForm<UnitForm>(*window_, window_->sizes().unit(), [&](UnitForm& form) {
    EXPECT_TRUE(form.choice(LengthUnit::mm).isChecked());
    EXPECT_FALSE(form.changeButton().isEnabled());
    QRadioButton& inch = form.choice(LengthUnit::inch);
    hand_.click(inch, QPointF(10, inch.height() / 2.0));
    ASSERT_TRUE(soon([&] { return form.changeButton().isEnabled(); }));
    hand_.key(QStringLiteral("Return"));
    soon([&] { return !form.isVisible(); });
  });
  for (const DocumentPart& part : session().document().document().parts) {
    EXPECT_EQ(part.scale, 25.4) << part.name;
  }
  waitForCheck();
  session().document().undoStack().undo();
  waitForCheck();
  hand_.key(QStringLiteral("ctrl+s"));
  EXPECT_EQ(bytes(), original_);
}

}  // namespace
}  // namespace swingroom
