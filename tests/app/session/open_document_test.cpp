// The document that is being edited. The sample files are as the program saves them: what is saved
// without a change must be their very bytes.
#include "app/session/document/open_document.h"

#include <gtest/gtest.h>

#include <QSignalSpy>

#include "app/edits/pair_edits.h"
#include "tests/app/support/assemblies.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

class OpenDocumentTest : public ::testing::Test {
 protected:
  void SetUp() override { open_.show(bench_.document(), bench_.file(), true); }

  void editOnce() {
    open_.edit(QStringLiteral("one"), edits::requiredGap(open_.document(), "box", "lid", 0.4));
  }
  bool opensAt(const fs::path& file) const {
    const MeshReader reader = testReader();
    return makeScene(documentOf(file), file, {&reader, 1, nullptr}, nullptr).ok();
  }

  Bench bench_ = Bench::hatchBox();
  const std::string sample_ = bytesOf(sampleFile("hatch_box/hatch_box.swing.json"));
  OpenDocument open_;
};

TEST_F(OpenDocumentTest, SavingWithoutAChangeWritesTheSameBytes) {
  ASSERT_EQ(open_.save(), std::nullopt);
  EXPECT_EQ(bytesOf(bench_.file()), sample_);
}

TEST_F(OpenDocumentTest, SavingAfterUndoWritesTheOriginalBytes) {
  editOnce();
  ASSERT_EQ(open_.save(), std::nullopt);
  ASSERT_NE(bytesOf(bench_.file()), sample_);
  open_.undoStack().undo();
  EXPECT_TRUE(open_.isModified()) << "on disk is the edited one";
  ASSERT_EQ(open_.save(), std::nullopt);
  EXPECT_EQ(bytesOf(bench_.file()), sample_);
}

TEST_F(OpenDocumentTest, UndoAndRedoGoBackAndForthBetweenTwoDocuments) {
  const AssemblyDocument before = open_.document();
  const QSignalSpy changed(&open_, &OpenDocument::changed);
  editOnce();
  const AssemblyDocument after = open_.document();
  ASSERT_NE(before, after);
  open_.undoStack().undo();
  EXPECT_EQ(open_.document(), before);
  open_.undoStack().redo();
  EXPECT_EQ(open_.document(), after);
  EXPECT_EQ(changed.count(), 3);
}

TEST_F(OpenDocumentTest, IsModifiedUntilSavedOrUndone) {
  const QSignalSpy modified(&open_, &OpenDocument::modifiedChanged);
  EXPECT_FALSE(open_.isModified());
  editOnce();
  EXPECT_TRUE(open_.isModified());
  open_.undoStack().undo();
  EXPECT_FALSE(open_.isModified());
  open_.undoStack().redo();
  ASSERT_EQ(open_.save(), std::nullopt);
  EXPECT_FALSE(open_.isModified());
  EXPECT_EQ(modified.count(), 4);
}

TEST_F(OpenDocumentTest, AnEditThatChangesNothingIsNoEdit) {
  const QSignalSpy changed(&open_, &OpenDocument::changed);
  open_.edit(QStringLiteral("nothing"), open_.document());
  EXPECT_EQ(changed.count(), 0);
  EXPECT_EQ(open_.undoStack().count(), 0);
}

TEST_F(OpenDocumentTest, ANewDocumentIsModifiedUntilItIsSaved) {
  open_.show(bench_.document(), bench_.folder() / "new.swing.json", false);
  EXPECT_TRUE(open_.isModified());
  ASSERT_EQ(open_.save(), std::nullopt);
  EXPECT_FALSE(open_.isModified());
  EXPECT_EQ(bytesOf(open_.file()), sample_);
}

TEST_F(OpenDocumentTest, AFileOpenedAfterANewDocumentIsNotModified) {
  open_.show(bench_.document(), bench_.folder() / "new.swing.json", false);
  const QSignalSpy modified(&open_, &OpenDocument::modifiedChanged);
  open_.show(bench_.document(), bench_.file(), true);
  EXPECT_FALSE(open_.isModified());
  EXPECT_EQ(modified.count(), 1);
}

TEST_F(OpenDocumentTest, ANewDocumentSavedElsewhereIsNotModified) {
  open_.show(bench_.document(), bench_.folder() / "new.swing.json", false);
  fs::create_directory(bench_.folder() / "deep");
  ASSERT_EQ(open_.saveAs(bench_.folder() / "deep" / "new.swing.json"), std::nullopt);
  EXPECT_FALSE(open_.isModified());
}

TEST_F(OpenDocumentTest, SavedUnderAnotherNameBesideItIsTheSameFile) {
  const QSignalSpy files(&open_, &OpenDocument::fileChanged);
  const fs::path other = bench_.folder() / "other.swing.json";
  editOnce();
  ASSERT_EQ(open_.saveAs(other), std::nullopt);
  EXPECT_EQ(open_.file(), other);
  EXPECT_EQ(files.count(), 1);
  EXPECT_FALSE(open_.isModified());
  EXPECT_EQ(bytesOf(bench_.file()), sample_) << "the first file is as it was";
  open_.undoStack().undo();
  ASSERT_EQ(open_.save(), std::nullopt);
  EXPECT_EQ(bytesOf(other), sample_);
}

TEST_F(OpenDocumentTest, SavedInAnotherFolderItOpensThere) {
  for (const char* place : {"deep/deeper", "deep"}) {  // Down, then up one.
    const fs::path folder = bench_.folder() / place;
    fs::create_directories(folder);
    ASSERT_EQ(open_.saveAs(folder / "moved.swing.json"), std::nullopt);
    EXPECT_TRUE(opensAt(open_.file())) << place;
    EXPECT_EQ(documentOf(open_.file()), open_.document());
  }
  ASSERT_EQ(open_.saveAs(bench_.folder() / "back.swing.json"), std::nullopt);
  EXPECT_EQ(bytesOf(open_.file()), sample_) << "paths are turned back too";
}

TEST_F(OpenDocumentTest, AFailedSaveKeepsTheDocumentAndSaysWhereWhatAndAHint) {
  editOnce();
  const AssemblyDocument edited = open_.document();
  const fs::path lost = bench_.folder() / "not there" / "a.swing.json";
  const fs::path folder = bench_.folder() / "folder.swing.json";  // No file can take its place.
  fs::create_directories(folder / "full");
  for (const fs::path& place : {lost, folder}) {
    const auto problem = open_.saveAs(place);
    ASSERT_TRUE(problem) << place;
    EXPECT_EQ(problem->where, place.string());
    EXPECT_NE(problem->what.find("cannot be saved"), std::string::npos) << problem->what;
    EXPECT_FALSE(problem->hint.empty());
    EXPECT_EQ(open_.document(), edited);
    EXPECT_EQ(open_.file(), bench_.file());
    EXPECT_TRUE(open_.isModified());
    EXPECT_TRUE(open_.undoStack().canUndo());
  }
  open_.show(edited, lost, true);
  editOnce();
  EXPECT_EQ(open_.document(), edited) << "it had that gap already";
  open_.edit(QStringLiteral("two"), edits::requiredGap(edited, "box", "bolt", 1.0));
  ASSERT_TRUE(open_.save());
  EXPECT_TRUE(open_.isModified());
}

}  // namespace
}  // namespace swingroom
