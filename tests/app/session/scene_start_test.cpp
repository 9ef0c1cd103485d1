// A file with two parts, written by hand, becomes a document in the background.
#include "app/session/sources/scene_start.h"

#include <gtest/gtest.h>

#include "tests/app/support/assemblies.h"
#include "tests/app/support/wait.h"
#include "tests/support/temp_folder.h"

namespace swingroom {
namespace {

/// Two tetrahedra of 10 units.
const char* const kTwoParts =
    "v 0 0 0\nv 10 0 0\nv 0 10 0\nv 0 0 10\nv 40 0 0\nv 50 0 0\nv 40 10 0\nv 40 0 10\n"
    "o hull\nf 1 3 2\nf 1 2 4\nf 2 3 4\nf 1 4 3\n"
    "o mast\nf 5 7 6\nf 5 6 8\nf 6 7 8\nf 5 8 7\n";

class SceneStartTest : public ::testing::Test {
 protected:
  SceneStartTest() : file_(folder_.write("boat.obj", kTwoParts)), start_(testReader()) {
    QObject::connect(&start_, &SceneStart::made, [this](const auto& made) { made_ = made; });
    QObject::connect(&start_, &SceneStart::looked, [this](const auto& look) { look_ = look; });
  }
  SceneStart::Wish wish() const { return {file_, 1.0, 0.3, "", {}}; }

  const TempFolder folder_;
  std::filesystem::path file_;
  SceneStart start_;
  std::optional<SceneStart::Made> made_;
  std::optional<Outcome<SceneLook>> look_;
};

TEST_F(SceneStartTest, LookTellsPartsAndThatTheUnitIsNotSaid) {
  start_.look(file_);
  ASSERT_TRUE(waitUntil([&] { return look_.has_value(); }));
  ASSERT_TRUE(look_->ok());
  EXPECT_EQ((*look_)->parts, (std::vector<std::string>{"hull", "mast"}));
  EXPECT_TRUE((*look_)->unitAssumed);
  EXPECT_TRUE((*look_)->moments.empty());
}

TEST_F(SceneStartTest, MadeDocumentNamesThePartsOfTheFileBesideIt) {
  start_.make(wish());
  ASSERT_TRUE(waitUntil([&] { return made_.has_value(); }));
  ASSERT_TRUE(made_->assembly.ok()) << toText(made_->assembly.problems().front());
  EXPECT_EQ(made_->file, folder_.path() / "boat.swing.json");
  EXPECT_EQ(made_->assembly->document.parts.at(1).stages.at("block"), "boat.obj#mast");
}

TEST_F(SceneStartTest, OnlyTheNewestWishIsAnswered) {
  int answers = 0;
  QObject::connect(&start_, &SceneStart::made, [&](const auto&) { ++answers; });
  SceneStart::Wish other = wish();
  start_.make(other);
  other.requiredGapMm = 0.75;
  start_.make(other);
  ASSERT_TRUE(waitUntil([&] { return made_.has_value(); }));
  EXPECT_EQ(made_->assembly->document.requiredGap, 0.75);
  EXPECT_EQ(answers, 1);
}

TEST_F(SceneStartTest, AFileThatIsNotThereIsAProblem) {
  start_.look(folder_.path() / "gone.obj");
  ASSERT_TRUE(waitUntil([&] { return look_.has_value(); }));
  EXPECT_FALSE(look_->ok());
}

}  // namespace
}  // namespace swingroom
