// What is kept against a crash, and what of it is offered. Kills of a real process are in kill.
#include "app/session/document/autosave.h"

#include <gtest/gtest.h>

#include <QSignalSpy>

#include "app/edits/pair_edits.h"
#include "app/session/document/open_mark.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/support/wait.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

class AutosaveTest : public ::testing::Test {
 protected:
  void SetUp() override {
    open_.show(bench_.document(), bench_.file(), true);
    autosave_ = std::make_unique<Autosave>(open_, folder_);
    autosave_->setDelay(10);
  }
  void editGap(double gapMm, const char* name = "one") {
    open_.edit(QString::fromLatin1(name),
               edits::requiredGap(open_.document(), "box", "lid", gapMm));
  }
  std::vector<LeftWork> found() const { return findLeftWork(folder_); }
  /// What is left when its program ends without a word.
  void crash() { autosave_.reset(); }
  std::size_t filesKept() const {
    std::error_code none;
    std::size_t count = 0;
    for (fs::directory_iterator entry(folder_, none), end; !none && entry != end; ++entry) ++count;
    return count;
  }

  Bench bench_ = Bench::hatchBox();
  const std::string sample_ = bytesOf(sampleFile("hatch_box/hatch_box.swing.json"));
  TempFolder data_;
  const fs::path folder_ = data_.path() / "swingroom" / "recovery";
  OpenDocument open_;
  std::unique_ptr<Autosave> autosave_;
};

TEST_F(AutosaveTest, NothingIsKeptOfADocumentThatIsOnDisk) {
  letTimePass();
  EXPECT_EQ(filesKept(), 0u);
  autosave_->writeNow();
  EXPECT_EQ(filesKept(), 0u);
}

TEST_F(AutosaveTest, AnEditIsKeptByItselfAndTheFileIsUntouched) {
  const QSignalSpy written(autosave_.get(), &Autosave::written);
  editGap(0.4);
  ASSERT_TRUE(waitUntil([&] { return written.count() == 1; }));
  EXPECT_EQ(bytesOf(bench_.file()), sample_);
  for (const auto& entry : fs::directory_iterator(bench_.folder())) {
    EXPECT_TRUE(fs::exists(sampleFile("hatch_box") / entry.path().filename())) << entry.path();
  }
  crash();
  const auto left = found();
  ASSERT_EQ(left.size(), 1u);
  EXPECT_EQ(left[0].work.document, open_.document());
  EXPECT_EQ(left[0].work.original, bench_.file());
  EXPECT_EQ(left[0].work.lastEdit, QStringLiteral("one"));
  EXPECT_LT(left[0].work.when.secsTo(QDateTime::currentDateTimeUtc()), 60);
  // sha256sum of the sample, taken by the tested hash of file_hash_test.
  EXPECT_EQ(left[0].work.seenDigest, *sha256Of(sampleFile("hatch_box/hatch_box.swing.json")));
}

TEST_F(AutosaveTest, WhatALivingProgramKeepsIsNotOffered) {
  editGap(0.4);
  autosave_->writeNow();
  EXPECT_EQ(filesKept(), 1u);
  EXPECT_TRUE(found().empty());
  editGap(0.5, "two");
  autosave_->writeNow();
  EXPECT_TRUE(found().empty());
  crash();
  ASSERT_EQ(found().size(), 1u);
  EXPECT_EQ(found()[0].work.lastEdit, QStringLiteral("two"));
}

TEST_F(AutosaveTest, WhatIsOfferedHereIsNotOfferedElsewhere) {
  editGap(0.4);
  autosave_->writeNow();
  crash();
  auto here = found();
  ASSERT_EQ(here.size(), 1u);
  EXPECT_TRUE(found().empty());
  here.clear();  // Looked at later.
  EXPECT_EQ(found().size(), 1u);
}

TEST_F(AutosaveTest, SavedUndoneOrGivenUpIsNotKept) {
  const auto keep = [&](double gapMm) {
    editGap(gapMm);
    autosave_->writeNow();
    ASSERT_EQ(filesKept(), 1u);
  };
  keep(0.4);
  ASSERT_EQ(open_.save(), std::nullopt);
  EXPECT_EQ(filesKept(), 0u);
  keep(0.5);
  open_.undoStack().undo();
  EXPECT_EQ(filesKept(), 0u);
  keep(0.6);
  open_.show(bench_.document(), bench_.file(), true);  // Its changes were given up.
  EXPECT_EQ(filesKept(), 0u);
  keep(0.7);
  autosave_->giveUp();
  EXPECT_EQ(filesKept(), 0u);
  keep(0.8);
  autosave_->setOn(false);
  EXPECT_EQ(filesKept(), 0u);
  editGap(0.9);
  autosave_->writeNow();
  EXPECT_EQ(filesKept(), 0u);
  autosave_->setOn(true);
  EXPECT_TRUE(waitUntil([&] { return filesKept() == 1; }));
}

TEST_F(AutosaveTest, ADocumentThatWasNeverSavedIsKept) {
  open_.show(bench_.document(), bench_.folder() / "new.swing.json", false);
  autosave_->writeNow();
  crash();
  const auto left = found();
  ASSERT_EQ(left.size(), 1u);
  EXPECT_EQ(left[0].work.seenDigest, "");
  EXPECT_EQ(left[0].work.document, bench_.document());
}

TEST_F(AutosaveTest, WhatWasSavedJustBeforeTheEndIsNotOffered) {
  editGap(0.4);
  autosave_->writeNow();
  const AssemblyDocument edited = open_.document();
  crash();
  bench_.write(edited);
  EXPECT_TRUE(found().empty());
  EXPECT_EQ(filesKept(), 0u);
}

TEST_F(AutosaveTest, AdoptedWorkKeepsOneFileAndGoesWithTheSave) {
  editGap(0.4, "before the crash");
  autosave_->writeNow();
  crash();
  OpenDocument again;
  again.show(bench_.document(), bench_.file(), true);
  Autosave next(again, folder_);
  auto left = found();
  ASSERT_EQ(left.size(), 1u);
  again.edit(QStringLiteral("taken up"), left[0].work.document);
  next.adopt(std::move(left[0]));
  EXPECT_EQ(filesKept(), 1u);
  EXPECT_TRUE(found().empty());
  ASSERT_EQ(again.save(), std::nullopt);
  EXPECT_EQ(filesKept(), 0u);
}

TEST_F(AutosaveTest, FilesOfAnotherKindAreLeftAlone) {
  fs::create_directories(folder_);
  writeBytes(folder_ / "notes.recovery", "not ours");
  writeBytes(folder_ / "readme.txt", "not ours");
  writeBytes(folder_ / ".0123-45.recovery.saving-0", "half of one");
  EXPECT_TRUE(found().empty());
  EXPECT_EQ(filesKept(), 2u) << "what a killed program has written half is removed, no more";
}

TEST_F(AutosaveTest, OnlyWorkOnTheAskedFileIsFound) {
  editGap(0.4);
  autosave_->writeNow();
  crash();
  EXPECT_EQ(findLeftWork(folder_, bench_.file()).size(), 1u);
  EXPECT_TRUE(findLeftWork(folder_, bench_.folder() / "other.swing.json").empty());
}

TEST_F(AutosaveTest, FolderThatCannotBeMadeIsToldOnce) {
  writeBytes(data_.path() / "file", "no folder");
  Autosave lost(open_, data_.path() / "file" / "recovery");
  const QSignalSpy failed(&lost, &Autosave::failed);
  for (const double gapMm : {0.4, 0.5, 0.6}) {
    editGap(gapMm);
    lost.writeNow();
  }
  EXPECT_EQ(failed.count(), 1);
}

TEST_F(AutosaveTest, UnsavedWorkIsReadAsItWasWritten) {
  UnsavedWork work{bench_.file(), "abc", QDateTime::currentDateTimeUtc(),
                   QString::fromUtf8("“Gap” \n ö"), bench_.document()};
  const auto read = parseUnsaved(writeUnsaved(work));
  ASSERT_TRUE(read);
  EXPECT_EQ(read->document, work.document);
  EXPECT_EQ(read->lastEdit, work.lastEdit);
  EXPECT_EQ(read->original, work.original);
  EXPECT_EQ(read->when, work.when);
  for (const char* bad : {"", "{", "{}", "[1]", R"({"swingroomRecovery": 1})"}) {
    EXPECT_FALSE(parseUnsaved(bad)) << bad;
  }
}

TEST(OpenMark, SecondOneIsToldAndAThirdAfterTheFirstIsNot) {
  const TempFolder folder;
  const fs::path file = folder.write("a.swing.json", "");
  fs::create_symlink(file, folder.path() / "link.swing.json");
  OpenMark first(folder.path() / "recovery"), second(folder.path() / "recovery");
  EXPECT_FALSE(first.raise(file));
  EXPECT_TRUE(second.raise(folder.path() / "link.swing.json"));
  EXPECT_FALSE(first.raise(folder.path() / "b.swing.json"));
  EXPECT_FALSE(second.raise(file));
  second.lower();
  EXPECT_FALSE(first.raise(file));
}

}  // namespace
}  // namespace swingroom
