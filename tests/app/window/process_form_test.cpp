// The table of printers and materials, by real mouse and keys. Built-in figures are those of
// core/print/process; the file's form is that of resources/print.schema.json.
#include <QApplication>
#include <QDoubleSpinBox>
#include <QLineEdit>
#include <QScrollArea>
#include <QScrollBar>
#include <QTabWidget>

#include "app/window/forms/print/process_form.h"
#include "app/window/print/print_forms.h"
#include "tests/app/window/print_window.h"

namespace swingroom {
namespace {

constexpr const char* kBigPrinter = R"({"swingroomPrint": 1,
    "processes": [{"name": "big printer", "from": "filament, 0.6 mm nozzle"}]})";

class ProcessFormWindow : public PrintWindow {
 protected:
  ProcessForm* openForm() {
    window_->printForms().openProcess();
    ProcessForm* form = window_->printForms().process();
    return isUp(form) ? form : nullptr;
  }
  /// Into the field that the list has opened for a name.
  void nameIt(const QString& name) {
    ASSERT_TRUE(soon([] { return qobject_cast<QLineEdit*>(QApplication::focusWidget()); }));
    hand_.key(QStringLiteral("ctrl+a"));
    hand_.type(name);
    hand_.key(QStringLiteral("Return"));
  }
  static void chooseLast(ProcessPage& page) {
    page.choose(static_cast<std::size_t>(page.list().count()) - 1);
    page.list().setFocus();
  }
  static QDoubleSpinBox& box(ProcessForm& form, const char* key) {
    return form.processes().figures().value(key);
  }
};

// What is typed is the maker's own and is written as a plain number; everything else stays unsaid.
TEST_F(ProcessFormWindow, AFigureThatIsTypedIsMeasuredAndKept) {
  open();
  ProcessForm* form = openForm();
  ASSERT_NE(form, nullptr);
  EXPECT_FALSE(form->save().isEnabled()) << "nothing is changed";
  EXPECT_EQ(box(*form, "holeShrinkMm").value(), 0.15);
  typeInto(box(*form, "holeShrinkMm"), QStringLiteral("0.21"));
  ASSERT_TRUE(soon([&] { return form->save().isEnabled(); }));
  EXPECT_EQ(form->processes().figures().source("holeShrinkMm"), QStringLiteral("measured by you"));
  EXPECT_TRUE(form->processes().figures().putBack("holeShrinkMm").isVisible());
  EXPECT_FALSE(form->processes().figures().putBack("layerMm").isVisible());
  int told = 0;
  QObject::connect(&window_->printForms(), &PrintForms::tablesChanged, [&] { ++told; });
  clickOn(form->save());
  ASSERT_TRUE(soon([&] { return window_->printForms().process() == nullptr; }));
  EXPECT_EQ(told, 1);
  EXPECT_EQ(tablesText(), R"({
  "swingroomPrint": 1,
  "processes": [
    {
      "name": "filament, 0.4 mm nozzle",
      "holeShrinkMm": 0.21
    }
  ],
  "materials": []
}
)");
  EXPECT_FALSE(session().document().isModified());
}

// Scrolling is no measuring: over a field without the keys the wheel moves the page.
TEST_F(ProcessFormWindow, TheWheelOverAFieldThatIsNotBeingEditedScrollsThePage) {
  open();
  ProcessForm* form = openForm();
  ASSERT_NE(form, nullptr);
  form->resize(form->width(), 560);
  ProcessPage& page = form->processes();
  QScrollBar& bar = *page.findChild<QScrollArea*>()->verticalScrollBar();
  ASSERT_TRUE(soon([&] { return bar.maximum() > 0; }));
  page.list().setFocus();
  const PrintTables before = form->tables();
  for (QWidget* field : std::initializer_list<QWidget*>{&page.material(), &page.bed(0),
                                                        &box(*form, "layerMm")}) {
    bar.setValue(0);
    hand_.wheel(*field, QRectF(field->rect()).center(), false);
    EXPECT_TRUE(soon([&] { return bar.value() > 0; })) << field->metaObject()->className();
    EXPECT_FALSE(field->hasFocus());
  }
  EXPECT_TRUE(form->tables() == before);
  EXPECT_FALSE(form->save().isEnabled());
  bar.setValue(0);
  QDoubleSpinBox& layer = box(*form, "layerMm");
  layer.setFocus();
  hand_.wheel(layer, QRectF(layer.rect()).center(), true);
  EXPECT_TRUE(soon([&] { return layer.value() > 0.2; })) << "one that is being edited is turned";
}

TEST_F(ProcessFormWindow, PuttingBackBringsTheValueAndItsSource) {
  open();
  ProcessForm* form = openForm();
  ASSERT_NE(form, nullptr);
  typeInto(box(*form, "leastHoleMm"), QStringLiteral("2.6"));
  ASSERT_TRUE(soon([&] { return form->save().isEnabled(); }));
  clickOn(form->processes().figures().putBack("leastHoleMm"));
  ASSERT_TRUE(soon([&] { return !form->save().isEnabled(); }));
  EXPECT_EQ(box(*form, "leastHoleMm").value(), 2);
  EXPECT_EQ(form->processes().figures().source("leastHoleMm"),
            QStringLiteral("published: design rules sheet of a printing service"));
  typeInto(form->processes().bed(0), QStringLiteral("180"));
  ASSERT_TRUE(soon([&] { return form->save().isEnabled(); }));
  clickOn(form->processes().putBedBack());
  ASSERT_TRUE(soon([&] { return !form->save().isEnabled(); }));
  EXPECT_EQ(form->processes().bed(0).value(), 220);
}

// Keys that nobody here knows, and entries of other programs' making, are in the file afterwards.
TEST_F(ProcessFormWindow, WhatIsNotUnderstoodOfTheFileIsKept) {
  writeTables(R"({"swingroomPrint": 1, "shop": {"owner": ["me", 2]},
    "processes": [{"name": "big printer", "from": "filament, 0.6 mm nozzle", "frame": "black"}]})");
  open();
  ProcessForm* form = openForm();
  ASSERT_NE(form, nullptr);
  form->processes().choose(static_cast<std::size_t>(form->processes().list().count()) - 1);
  typeInto(box(*form, "scatterMm"), QStringLiteral("0.2"));
  ASSERT_TRUE(soon([&] { return form->save().isEnabled(); }));
  clickOn(form->save());
  ASSERT_TRUE(soon([&] { return window_->printForms().process() == nullptr; }));
  const std::string text = tablesText();
  for (const char* kept : {"\"frame\": \"black\"", "\"shop\"", "\"scatterMm\": 0.2",
                           "\"from\": \"filament, 0.6 mm nozzle\""}) {
    EXPECT_NE(text.find(kept), std::string::npos) << kept << "\n" << text;
  }
}

TEST_F(ProcessFormWindow, OneOfYourOwnIsMadeNamedAndTakenOut) {
  open();
  ProcessForm* form = openForm();
  ASSERT_NE(form, nullptr);
  ProcessPage& page = form->processes();
  EXPECT_FALSE(page.removeButton().isEnabled()) << "built-in ones stay";
  const int before = page.list().count();
  clickOn(page.copyButton());
  ASSERT_TRUE(soon([&] { return page.list().count() == before + 1; }));
  nameIt(QStringLiteral("Powder Sintered"));
  ASSERT_TRUE(soon([&] { return !page.says().isEmpty(); })) << "a built-in one's name";
  EXPECT_EQ(page.list().currentItem()->text(), QStringLiteral("filament, 0.4 mm nozzle (2)"));
  page.list().setFocus();
  hand_.key(QStringLiteral("F2"));
  nameIt(QStringLiteral("by the window"));
  ASSERT_TRUE(
      soon([&] { return page.list().currentItem()->text() == QStringLiteral("by the window"); }));
  EXPECT_TRUE(form->isVisible()) << "the key ended the name, not the form";
  EXPECT_EQ(form->tables().processes.back().name, "by the window");
  clickOn(page.removeButton());
  ASSERT_TRUE(soon([&] { return page.list().count() == before; }));
  EXPECT_FALSE(form->save().isEnabled()) << "as it was";
}

TEST_F(ProcessFormWindow, TheAssemblysProcessIsAnEditThatIsUndone) {
  open();
  const AssemblyDocument before = session().document().document();
  ProcessForm* form = openForm();
  ASSERT_NE(form, nullptr);
  form->ofAssembly().setFocus();
  hand_.key(QStringLiteral("End"));
  ASSERT_TRUE(soon([&] { return form->save().isEnabled(); }));
  clickOn(form->save());
  ASSERT_TRUE(soon([&] { return window_->printForms().process() == nullptr; }));
  EXPECT_EQ(session().document().document().process, "powder, sintered");
  EXPECT_FALSE(std::filesystem::exists(tablesFile())) << "no figure was changed";
  session().document().undoStack().undo();
  EXPECT_TRUE(session().document().document() == before);
}

TEST_F(ProcessFormWindow, TheAssemblyFollowsARenamedProcessAndSaveIsOneEdit) {
  writeTables(kBigPrinter);
  open();
  AssemblyDocument before = session().document().document();
  before.process = "Big Printer";
  before.parts[0].process = "big printer";
  session().document().edit(QStringLiteral("process"), before);
  ProcessForm* form = openForm();
  ASSERT_NE(form, nullptr);
  chooseLast(form->processes());
  hand_.key(QStringLiteral("F2"));
  nameIt(QStringLiteral("by the window"));
  ASSERT_TRUE(soon([&] { return form->save().isEnabled(); }));
  EXPECT_EQ(form->ofAssembly().currentText(), QStringLiteral("by the window"));
  EXPECT_TRUE(form->says().contains(QStringLiteral("can be undone")));
  clickOn(form->save());
  ASSERT_TRUE(soon([&] { return window_->printForms().process() == nullptr; }));
  EXPECT_EQ(session().document().document().process, "by the window");
  EXPECT_EQ(session().document().document().parts[0].process, "by the window");
  session().document().undoStack().undo();
  EXPECT_TRUE(session().document().document() == before);
}

// A name that was only here for a while is never the assembly's.
TEST_F(ProcessFormWindow, AProcessThatIsTakenOutLeavesTheAssemblyWithItsOwnOne) {
  open();
  const AssemblyDocument before = session().document().document();
  ProcessForm* form = openForm();
  ASSERT_NE(form, nullptr);
  const QString own = form->ofAssembly().currentText();
  clickOn(form->processes().copyButton());
  nameIt(QStringLiteral("by the window"));
  ASSERT_TRUE(soon([&] { return form->tables().processes.back().name == "by the window"; }));
  form->ofAssembly().setFocus();
  hand_.key(QStringLiteral("End"));
  ASSERT_TRUE(
      soon([&] { return form->ofAssembly().currentText() == QStringLiteral("by the window"); }));
  clickOn(form->processes().removeButton());
  ASSERT_TRUE(soon([&] { return form->ofAssembly().currentText() == own; }));
  EXPECT_EQ(form->ofAssembly().findText(QStringLiteral("by the window")), -1);
  EXPECT_FALSE(form->save().isEnabled());
  EXPECT_TRUE(session().document().document() == before);
}

// Renamed and then taken out: the document keeps the name that it had, and nothing is edited.
TEST_F(ProcessFormWindow, ARenamedProcessThatIsTakenOutIsNotWrittenIntoTheAssembly) {
  writeTables(kBigPrinter);
  open();
  AssemblyDocument before = session().document().document();
  before.process = "big printer";
  session().document().edit(QStringLiteral("process"), before);
  ProcessForm* form = openForm();
  ASSERT_NE(form, nullptr);
  chooseLast(form->processes());
  hand_.key(QStringLiteral("F2"));
  nameIt(QStringLiteral("by the window"));
  ASSERT_TRUE(
      soon([&] { return form->ofAssembly().currentText() == QStringLiteral("by the window"); }));
  clickOn(form->processes().removeButton());
  ASSERT_TRUE(
      soon([&] { return form->ofAssembly().currentText() == QStringLiteral("big printer"); }));
  clickOn(form->save());
  ASSERT_TRUE(soon([&] { return window_->printForms().process() == nullptr; }));
  EXPECT_TRUE(session().document().document() == before);
}

TEST_F(ProcessFormWindow, ClearancesThatContradictEachOtherAreToldAndNotSaved) {
  open();
  ProcessForm* form = openForm();
  ASSERT_NE(form, nullptr);
  typeInto(box(*form, "leastPinClearanceMm"), QStringLiteral("0.7"));
  ASSERT_TRUE(
      soon([&] { return form->says().contains(QStringLiteral("more clearance to turn")); }));
  EXPECT_FALSE(form->save().isEnabled());
  typeInto(box(*form, "mostPinClearanceMm"), QStringLiteral("0.8"));
  EXPECT_TRUE(soon([&] { return form->save().isEnabled(); }));
}

TEST_F(ProcessFormWindow, AFileThatCannotBeReadIsToldAndNeverWrittenOver) {
  writeTables("{\"swingroomPrint\": 1, \"processes\": ");
  open();
  ProcessForm* form = openForm();
  ASSERT_NE(form, nullptr);
  EXPECT_TRUE(form->says().contains(QStringLiteral("print.json"))) << form->says().toStdString();
  EXPECT_FALSE(form->tabs().isEnabled());
  EXPECT_FALSE(form->save().isEnabled());
  EXPECT_FALSE(form->ofAssembly().isEnabled());
  Q_EMIT form->ofAssembly().activated(1);
  EXPECT_TRUE(form->says().contains(QStringLiteral("print.json"))) << "whatever is chosen";
  EXPECT_TRUE(form->readAgainButton().isVisible());
  writeTables("{\"swingroomPrint\": 1}");
  clickOn(form->readAgainButton());
  EXPECT_TRUE(soon([&] { return form->tabs().isEnabled(); }));
  EXPECT_TRUE(form->ofAssembly().isEnabled());
  EXPECT_FALSE(form->readAgainButton().isVisible());
}

TEST_F(ProcessFormWindow, AFileThatAnotherProgramChangedMeanwhileIsNotWrittenOver) {
  open();
  ProcessForm* form = openForm();
  ASSERT_NE(form, nullptr);
  typeInto(box(*form, "scatterMm"), QStringLiteral("0.2"));
  ASSERT_TRUE(soon([&] { return form->save().isEnabled(); }));
  const char* const theirs =
      R"({"swingroomPrint": 1, "materials": [{"name": "PLA", "poisson": 0.4}]})";
  writeTables(theirs);
  clickOn(form->save());
  ASSERT_TRUE(soon([&] { return form->readAgainButton().isVisible(); }));
  EXPECT_TRUE(form->isVisible());
  EXPECT_EQ(tablesText(), theirs);
  typeInto(box(*form, "scatterMm"), QStringLiteral("0.25"));
  ASSERT_TRUE(soon([&] { return box(*form, "scatterMm").value() == 0.25; }));
  EXPECT_TRUE(form->says().contains(QStringLiteral("by another program"))) << "until it is read";
  EXPECT_TRUE(form->readAgainButton().isVisible());
  clickOn(form->readAgainButton());
  ASSERT_TRUE(soon([&] { return form->tables().materials[0].poisson.value == 0.4; }));
}

TEST_F(ProcessFormWindow, AMaterialsFigureIsShownInItsUnitAndKept) {
  open();
  ProcessForm* form = openForm();
  ASSERT_NE(form, nullptr);
  form->tabs().setCurrentIndex(1);
  MaterialPage& page = form->materials();
  EXPECT_EQ(page.figures().value("strainOnce").value(), 2) << "2 %: check values 5.4";
  EXPECT_EQ(page.figures().value("densityGPerCm3").value(), 1.24);
  typeInto(page.figures().value("densityGPerCm3"), QStringLiteral("1.31"));
  ASSERT_TRUE(soon([&] { return form->save().isEnabled(); }));
  clickOn(form->save());
  ASSERT_TRUE(soon([&] { return window_->printForms().process() == nullptr; }));
  EXPECT_NE(tablesText().find("\"densityGPerCm3\": 1.31"), std::string::npos) << tablesText();
}

}  // namespace
}  // namespace swingroom
