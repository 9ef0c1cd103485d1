// Other programs change files that are open here.
#include "app/session/document/outside_changes.h"

#include <gtest/gtest.h>

#include <QSignalSpy>

#include "app/edits/pair_edits.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/support/wait.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

/// Long enough for a machine with other work, short enough to be waited for.
constexpr std::chrono::milliseconds kYoung(1500);

class OutsideChangesTest : public ::testing::Test {
 protected:
  void SetUp() override {
    SettlingTimes times;
    times.still = times.stillOpen = times.abrupt = std::chrono::milliseconds(50);
    times.young = kYoung;
    outside_.setTimes(times);
    ASSERT_EQ(session_.open(bench_.file()), Problems{});
    ASSERT_TRUE(waitUntilQuiet(session_));
  }
  AssemblyDocument withGap(double gapMm) {
    return edits::requiredGap(bench_.document(), "box", "lid", gapMm);
  }
  void editGap(double gapMm) {
    session_.document().edit(
        QStringLiteral("mine"),
        edits::requiredGap(session_.document().document(), "box", "bolt", gapMm));
  }

  Bench bench_ = Bench::hatchBox();
  Session session_{testReader()};
  OutsideChanges outside_{session_};
  QSignalSpy readAgain_{&outside_, &OutsideChanges::readAgain};
  QSignalSpy bothChanged_{&outside_, &OutsideChanges::bothChanged};
  QSignalSpy settled_{&outside_, &OutsideChanges::settled};
};

TEST_F(OutsideChangesTest, UnchangedDocumentIsReadAgainKeepingPlaceAndChoice) {
  session_.stand().moveTo(0.37);
  const PartId lid = part(*session_.scene(), "lid");
  session_.choice().choosePart(lid);
  const AssemblyDocument before = session_.document().document();
  bench_.write(withGap(0.5));
  ASSERT_TRUE(waitUntil([&] { return readAgain_.count() == 1; }));
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_EQ(session_.document().document(), withGap(0.5));
  EXPECT_FALSE(session_.document().isModified());
  EXPECT_EQ(session_.stand().instant(), 0.37);
  EXPECT_EQ(session_.choice().part(), lid);
  session_.document().undoStack().undo();
  EXPECT_EQ(session_.document().document(), before);
  EXPECT_TRUE(session_.document().isModified());
}

TEST_F(OutsideChangesTest, SavedByWritingInPlaceIsSeenToo) {
  bench_.write(withGap(0.5));  // By renaming, as this program does.
  ASSERT_TRUE(waitUntil([&] { return readAgain_.count() == 1; }));
  std::string text = bytesOf(bench_.file());
  text.replace(text.find("0.5"), 3, "0.6");
  writeBytes(bench_.file(), text);
  ASSERT_TRUE(waitUntil([&] { return readAgain_.count() == 2; }));
  EXPECT_EQ(session_.document().document(), withGap(0.6));
  bench_.write(withGap(0.7));
  ASSERT_TRUE(waitUntil([&] { return readAgain_.count() == 3; }));
}

TEST_F(OutsideChangesTest, OwnSaveAndATouchAreNoChanges) {
  editGap(0.8);
  ASSERT_EQ(session_.document().save(), std::nullopt);
  letTimePass();
  fs::last_write_time(bench_.file(), fs::file_time_type::clock::now());
  letTimePass();
  EXPECT_EQ(readAgain_.count() + bothChanged_.count(), 0);
  EXPECT_FALSE(session_.document().isChangedOutside());
}

TEST_F(OutsideChangesTest, BothChangedIsAskedOnceAndTheirsIsTakenAsAnEdit) {
  editGap(0.8);
  const AssemblyDocument mine = session_.document().document();
  bench_.write(withGap(0.5));
  ASSERT_TRUE(waitUntil([&] { return bothChanged_.count() == 1; }));
  letTimePass();
  EXPECT_EQ(bothChanged_.count(), 1);
  EXPECT_EQ(session_.document().document(), mine) << "nothing happens before the answer";
  outside_.takeTheirs();
  EXPECT_EQ(session_.document().document(), withGap(0.5));
  EXPECT_FALSE(session_.document().isModified());
  session_.document().undoStack().undo();
  EXPECT_EQ(session_.document().document(), mine);
  EXPECT_TRUE(session_.document().isModified());
}

TEST_F(OutsideChangesTest, MineIsKeptAndSavedWithoutAnotherQuestion) {
  editGap(0.8);
  bench_.write(withGap(0.5));
  ASSERT_TRUE(waitUntil([&] { return bothChanged_.count() == 1; }));
  outside_.keepMine();
  EXPECT_FALSE(session_.document().isChangedOutside());
  EXPECT_TRUE(session_.document().isModified());
  session_.document().undoStack().undo();
  EXPECT_TRUE(session_.document().isModified()) << "on disk is neither of the two";
  ASSERT_EQ(session_.document().save(), std::nullopt);
  EXPECT_EQ(documentOf(bench_.file()), session_.document().document());
}

TEST_F(OutsideChangesTest, TheSameChangeOnBothSidesIsNoQuestion) {
  session_.document().edit(QStringLiteral("mine"), withGap(0.5));
  bench_.write(withGap(0.5));
  ASSERT_TRUE(waitUntil([&] { return readAgain_.count() == 1; }));
  EXPECT_EQ(bothChanged_.count(), 0);
  EXPECT_FALSE(session_.document().isModified());
}

TEST_F(OutsideChangesTest, FileThatIsGoneMakesTheDocumentUnsaved) {
  const QSignalSpy gone(&outside_, &OutsideChanges::gone);
  fs::remove(bench_.file());
  ASSERT_TRUE(waitUntil([&] { return gone.count() == 1; }));
  letTimePass();
  EXPECT_EQ(gone.count(), 1);
  EXPECT_TRUE(session_.document().isModified());
  ASSERT_EQ(session_.document().save(), std::nullopt);
  EXPECT_TRUE(fs::exists(bench_.file()));
}

TEST_F(OutsideChangesTest, FileThatIsBrokenIsToldAndTheDocumentStays) {
  const QSignalSpy unreadable(&outside_, &OutsideChanges::unreadable);
  const AssemblyDocument before = session_.document().document();
  const AssemblyDocument later = withGap(0.5);
  writeBytes(bench_.file(), "{\"swingroom\": 1,");
  ASSERT_TRUE(waitUntil([&] { return unreadable.count() == 1; }));
  EXPECT_EQ(session_.document().document(), before);
  bench_.write(later);  // Its writer has come to the end.
  ASSERT_TRUE(waitUntil([&] { return readAgain_.count() == 1; }));
}

TEST_F(OutsideChangesTest, ChangedMeshIsReadAgain) {
  const QSignalSpy meshes(&outside_, &OutsideChanges::meshesReadAgain);
  const auto cornerOf = [&] {
    const Scene& scene = *session_.scene();
    return scene.assembly().part(part(scene, "lid")).mesh->vertices.front();
  };
  const Vector3d before = cornerOf();
  moveStl(bench_.folder() / "lid.stl", {0, 0, 7});
  ASSERT_TRUE(waitUntil([&] { return meshes.count() == 1; }));
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_NEAR((cornerOf() - before).z(), 7, 1e-4);  // float32 in the file.
  EXPECT_FALSE(session_.document().isModified());
}

TEST_F(OutsideChangesTest, MeshThatCameBackMendsWhatCouldNotBeMade) {
  const std::string mesh = bytesOf(bench_.folder() / "lid.stl");
  fs::remove(bench_.folder() / "lid.stl");
  ASSERT_EQ(session_.open(bench_.file()), Problems{});
  ASSERT_TRUE(waitUntil([&] { return !session_.problems().empty(); }));
  writeBytes(bench_.folder() / "lid.stl", mesh);
  EXPECT_TRUE(waitUntil([&] { return session_.problems().empty() && session_.scene(); }));
}

}  // namespace
}  // namespace swingroom
