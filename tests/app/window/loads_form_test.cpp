// Loads of the hatch box: three parts of three colours, one piece each a figure
// (sample_assemblies/hatch_box/README.md), so that all counts are known.
#include "app/window/forms/print/loads_form.h"

#include "app/window/print/print_forms.h"
#include "core/files/mesh_file.h"
#include "tests/app/window/print_window.h"

namespace swingroom {
namespace {

class LoadsWindow : public PrintWindow {
 protected:
  LoadsForm* openForm() {
    window_->printForms().openLoads();
    LoadsForm* form = window_->printForms().loads();
    if (!isUp(form) || !laid(*form)) return nullptr;
    return form;
  }
  static bool laid(LoadsForm& form) {
    return QTest::qWaitFor([&] { return !form.isWorking(); }, 60'000);
  }
  static int cell(LoadsForm& form, int row, int column) {
    return form.files().topLevelItem(row)->text(column).toInt();
  }
  static constexpr int kLoads = 4, kPieces = 5;
};

TEST_F(LoadsWindow, EveryColourIsAFileWithItsPieces) {
  open();
  LoadsForm* form = openForm();
  ASSERT_NE(form, nullptr);
  ASSERT_EQ(form->files().topLevelItemCount(), 3);
  EXPECT_TRUE(form->totals().startsWith(QStringLiteral("3 pieces on 3 loads.")))
      << form->totals().toStdString();
  typeInto(form->sets(), QStringLiteral("4"));
  ASSERT_TRUE(soon([&] { return form->sets().value() == 4; }));
  ASSERT_TRUE(laid(*form));
  for (int row = 0; row < 3; ++row) EXPECT_EQ(cell(*form, row, kPieces), 4);
  EXPECT_TRUE(form->totals().startsWith(QStringLiteral("12 pieces on 3 loads.")))
      << form->totals().toStdString();
  // 80 mm from the edges leave 60 of 220: one box, 59 x 63 x 37, a load, however it lies.
  typeInto(form->margin(), QStringLiteral("80"));
  ASSERT_TRUE(soon([&] { return form->margin().value() == 80; }));
  ASSERT_TRUE(laid(*form));
  EXPECT_EQ(cell(*form, 0, kLoads), 4);
  EXPECT_EQ(cell(*form, 0, kPieces), 4);
}

TEST_F(LoadsWindow, FilesAreWrittenAndReadBack) {
  open();
  LoadsForm* form = openForm();
  ASSERT_NE(form, nullptr);
  form->sets().setValue(2);
  ASSERT_TRUE(laid(*form));
  const std::filesystem::path folder = folder_.path() / "to print";
  form->writeInto(folder);
  ASSERT_TRUE(laid(*form));
  EXPECT_TRUE(form->says().startsWith(QStringLiteral("3 files are saved")))
      << form->says().toStdString();
  const std::string first = form->files().topLevelItem(0)->text(0).toStdString();
  const auto scene = MeshReader::besideThisProgram().readScene(folder / first);
  ASSERT_TRUE(scene.ok()) << toText(scene.problems().front());
  EXPECT_EQ(scene->parts.size(), 2u);
  form->writeInto(folder / first / "below a file");
  ASSERT_TRUE(laid(*form));
  EXPECT_TRUE(form->says().contains(QStringLiteral("cannot be made")));
}

TEST_F(LoadsWindow, WhatStandsInForFiguresThatAreNotKnownIsTold) {
  writeTables("no tables");
  open();
  AssemblyDocument document = session().document().document();
  document.process = "the big one";
  session().document().edit(QStringLiteral("process"), document);
  waitForCheck();
  ASSERT_TRUE(soon([&] { return session().scene()->document.process == "the big one"; }));
  LoadsForm* form = openForm();
  ASSERT_NE(form, nullptr);
  EXPECT_TRUE(form->totals().contains(QStringLiteral("built-in figures stand in")));
  EXPECT_TRUE(form->totals().contains(QStringLiteral("\"the big one\" is not in the table")))
      << form->totals().toStdString();
}

TEST_F(LoadsWindow, ClosingWhileItWorksWaitsForNothingThatIsShown) {
  open();
  window_->printForms().openLoads();
  LoadsForm* form = window_->printForms().loads();
  ASSERT_NE(form, nullptr);
  form->sets().setValue(300);
  form->close();
  EXPECT_TRUE(soon([&] { return window_->printForms().loads() == nullptr; }));
  QTest::qWait(100);
}

}  // namespace
}  // namespace swingroom
