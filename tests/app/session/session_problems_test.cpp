// Files that are no good, at once or after an edit.
#include <gtest/gtest.h>

#include "app/edits/pair_edits.h"
#include "app/session/session.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/support/wait.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

class SessionProblemsTest : public ::testing::Test {
 protected:
  void SetUp() override {
    ASSERT_EQ(session_.open(bench_.file()), Problems{});
    ASSERT_TRUE(waitUntilQuiet(session_));
    ASSERT_TRUE(session_.board().isComplete());
  }
  void expectSameAsBefore(const ScenePtr& scene) {
    EXPECT_EQ(session_.scene(), scene);
    EXPECT_EQ(session_.document().file(), bench_.file());
    EXPECT_EQ(session_.document().document(), bench_.document());
    EXPECT_TRUE(session_.board().isComplete());
    EXPECT_EQ(session_.problems(), Problems{});
    EXPECT_FALSE(session_.isLoading());
  }
  AssemblyDocument withoutRailFile() {
    AssemblyDocument document = session_.document().document();
    document.parts[2].stages["block"] = "lost.stl";
    return document;
  }

  Bench bench_ = Bench::press();
  Session session_{testReader()};
};

TEST_F(SessionProblemsTest, WhatWasOpenStaysWhenAFileIsNoAssemblyFile) {
  const ScenePtr scene = session_.scene();
  const std::vector<std::pair<std::string, std::string>> bad = {
      {"broken.swing.json", "{\"swingroom\": 1, "},
      {"other.json", "{\"name\": \"a recipe\"}"},
      {"newer.swing.json", "{\"swingroom\": 2, \"parts\": []}"},
      {"form.swing.json", "{\"swingroom\": 1, \"parts\": 7}"},
  };
  for (const auto& [name, text] : bad) {
    writeBytes(bench_.folder() / name, text);
    const Problems problems = session_.open(bench_.folder() / name);
    ASSERT_FALSE(problems.empty()) << name;
    EXPECT_NE(problems[0].where.find(name), std::string::npos) << problems[0].where;
    EXPECT_FALSE(problems[0].what.empty());
    expectSameAsBefore(scene);
  }
  for (const fs::path& file :
       {bench_.folder() / "block.stl", bench_.folder() / "not there.swing.json", bench_.folder()}) {
    EXPECT_FALSE(session_.open(file).empty()) << file;
    expectSameAsBefore(scene);
  }
}

TEST_F(SessionProblemsTest, AnAssemblyFileWhoseMeshIsMissingIsOpenAndSaysSo) {
  const Bench other = Bench::press();
  fs::remove(other.folder() / "rail.stl");
  ASSERT_EQ(session_.open(other.file()), Problems{});
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_EQ(session_.scene(), nullptr) << "nothing of the file before is shown with its name";
  EXPECT_EQ(session_.document().file(), other.file());
  ASSERT_FALSE(session_.problems().empty());
  EXPECT_NE(session_.problems()[0].where.find("/parts/2"), std::string::npos)
      << session_.problems()[0].where;
}

TEST_F(SessionProblemsTest, AMeshThatComesBackIsFoundByCheckingAgain) {
  const Bench other = Bench::press();
  fs::rename(other.folder() / "rail.stl", other.folder() / "away.stl");
  ASSERT_EQ(session_.open(other.file()), Problems{});
  ASSERT_TRUE(waitUntilQuiet(session_));
  ASSERT_FALSE(session_.problems().empty());
  fs::rename(other.folder() / "away.stl", other.folder() / "rail.stl");
  session_.checkAgain();
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_EQ(session_.problems(), Problems{});
  EXPECT_TRUE(session_.scene());
  EXPECT_TRUE(session_.board().isComplete());
}

TEST_F(SessionProblemsTest, AnEditThatCannotBeCheckedKeepsTheLastSceneAndUndoMendsIt) {
  const ScenePtr scene = session_.scene();
  bool checked = false;
  QObject::connect(&session_, &Session::activityChanged,
                   [&] { checked = checked || session_.isChecking(); });
  session_.document().edit(QStringLiteral("lose a file"), withoutRailFile());
  ASSERT_TRUE(waitUntilQuiet(session_));
  ASSERT_FALSE(session_.problems().empty());
  EXPECT_EQ(session_.scene(), scene);
  session_.document().undoStack().undo();
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_EQ(session_.problems(), Problems{});
  EXPECT_TRUE(session_.board().isComplete());
  EXPECT_FALSE(checked) << "what was known still holds";
}

TEST_F(SessionProblemsTest, AMeshThatWasSpoiltOnDiskIsToldWhenCheckedAgain) {
  const std::string good = bytesOf(bench_.folder() / "rail.stl");
  writeBytes(bench_.folder() / "rail.stl", "solid nothing\nendsolid nothing\n");
  session_.checkAgain();
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_FALSE(session_.problems().empty());
  EXPECT_FALSE(session_.board().isComplete()) << "it was not looked at";
  writeBytes(bench_.folder() / "rail.stl", good);
  session_.checkAgain();
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_EQ(session_.problems(), Problems{});
  EXPECT_EQ(session_.board().report().results, swept(*session_.scene()));
}

TEST_F(SessionProblemsTest, ProblemsGoWhenAnotherFileIsOpened) {
  session_.document().edit(QStringLiteral("lose a file"), withoutRailFile());
  ASSERT_TRUE(waitUntilQuiet(session_));
  ASSERT_FALSE(session_.problems().empty());
  const Bench other = Bench::hatchBox();
  ASSERT_EQ(session_.open(other.file()), Problems{});
  EXPECT_EQ(session_.problems(), Problems{});
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_EQ(session_.problems(), Problems{});
}

TEST_F(SessionProblemsTest, UnknownKeysAreNotedAndKept) {
  AssemblyDocument document = bench_.document();
  document.extra["glue"] = "true";
  bench_.write(document);
  ASSERT_EQ(session_.open(bench_.file()), Problems{});
  ASSERT_TRUE(waitUntilQuiet(session_));
  const Problems notes = session_.notes();
  EXPECT_TRUE(std::any_of(notes.begin(), notes.end(), [](const Problem& note) {
    return note.where.find("/glue") != std::string::npos;
  }));
  EXPECT_EQ(session_.document().document().extra.count("glue"), 1u);
}

TEST_F(SessionProblemsTest, PartsThatWouldFormARingWithoutModesAreAProblemNotACrash) {
  // A part with two mounts may leave a ring, mode by mode; without modes nothing says how.
  const Bench boat = Bench::boat();
  AssemblyDocument document = boat.document();
  document.modes.clear();
  document.sequences.clear();
  document.pairs.clear();
  ASSERT_EQ(document.joints[2].name, "deck clip");
  ASSERT_EQ(document.joints[3].name, "hand clip");
  document.joints[2].parent = "hand";
  document.joints[3].parent = "hull";
  document.joints[1].parent = "axe";  // The hand hangs on the axe, which hangs on the hand.
  boat.write(document);
  ASSERT_EQ(session_.open(boat.file()), Problems{});
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_FALSE(session_.problems().empty());
}

}  // namespace
}  // namespace swingroom
