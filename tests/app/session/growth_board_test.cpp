#include "app/session/room/growth_board.h"

#include <gtest/gtest.h>

#include "app/models/growth_words.h"
#include "tests/app/support/rooms.h"
#include "tests/app/support/wait.h"

namespace swingroom {
namespace {

/// The sled of tests/app/support/rooms.h: a box from (14, 2, 2) to (18, 8, 8), 0.2 under the rail.
class GrowthBoardTest : public ::testing::Test {
 protected:
  void SetUp() override {
    ASSERT_TRUE(session_.open(writeRoomPress(press_)).empty());
    ASSERT_TRUE(waitUntilQuiet(session_));
    ASSERT_NE(session_.scene(), nullptr);
  }
  void growSled(const Vector3d& centre_P) {
    board_.ask(part(*session_.scene(), "sled"), centre_P);
    ASSERT_TRUE(waitUntil([&] { return !board_.isLooking(); }));
    ASSERT_EQ(board_.failure(), QString());
    ASSERT_TRUE(board_.scale() && board_.offset());
  }
  /// What is proven, and what is broken, hold the true limit between them.
  static void expectBracket(const GrowthLimit& limit, double expected, double within) {
    EXPECT_LE(limit.proven, expected + 1e-5);  // STL is single precision.
    ASSERT_TRUE(limit.broken);
    EXPECT_GE(*limit.broken, expected - 1e-5);
    EXPECT_LE(*limit.broken - limit.proven, within);
  }

  Bench press_ = Bench::press();
  Session session_{testReader()};
  GrowthBoard board_{session_};
};

// The top face is 0.2 under the rail, of which 0.1 is required: all the surface may come out by 0.1,
// and about the middle, 3 under the top, the part may grow to 1 + 0.1 / 3.
TEST_F(GrowthBoardTest, AboutItsMiddleTheRailStopsIt) {
  growSled({16, 5, 5});
  expectBracket(*board_.offset(), 0.1, 0.03);
  expectBracket(*board_.scale(), 1 + 0.1 / 3, 0.02);
  ASSERT_TRUE(board_.scale()->stop);
  EXPECT_EQ(board_.scale()->stop->part, part(*board_.scene(), "rail"));
  EXPECT_EQ(growthStop(*board_.scene(), *board_.scale()).left(16),
            QStringLiteral("stopped by rail,"));
}

// About a point of the top face that one stays where it is. The front, 2 ahead of the point, then
// comes out until the block at the end is 0.1 away: by 1.9, which is 1 + 1.9 / 2.
TEST_F(GrowthBoardTest, AboutAPointOfItsTopTheBlockStopsItAtTheEnd) {
  growSled({16, 5, 8});
  expectBracket(*board_.scale(), 1.95, 0.02);
  ASSERT_TRUE(board_.scale()->stop);
  EXPECT_EQ(board_.scale()->stop->part, part(*board_.scene(), "block"));
  EXPECT_NEAR(board_.scale()->stop->instant, 1, 0.02);
}

TEST_F(GrowthBoardTest, AnotherPointAsksForTheScaleOnly) {
  growSled({16, 5, 5});
  const auto offset = board_.offset();
  board_.ask(part(*session_.scene(), "sled"), {16, 5, 8});
  EXPECT_EQ(board_.offset(), offset);
  EXPECT_FALSE(board_.scale());
  ASSERT_TRUE(waitUntil([&] { return !board_.isLooking(); }));
  EXPECT_TRUE(board_.scale());
}

TEST_F(GrowthBoardTest, AnEditThatChangesWhatWasAskedDropsIt) {
  growSled({16, 5, 5});
  const auto edit = [&](const std::function<void(AssemblyDocument&)>& change) {
    const ScenePtr before = session_.scene();
    AssemblyDocument document = session_.document().document();
    change(document);
    session_.document().edit(QStringLiteral("test"), document);
    ASSERT_TRUE(waitUntil([&] { return session_.scene() != before && !session_.isLoading(); }));
  };
  edit([](AssemblyDocument& document) { document.name = "another"; });
  EXPECT_TRUE(board_.scale()) << "nothing of it has changed";
  edit([](AssemblyDocument& document) { document.requiredGap = 0.15; });
  EXPECT_FALSE(board_.scale());
  EXPECT_EQ(board_.part(), std::nullopt);
}

TEST(GrowthWords, FiguresAreTheProvenOnesRoundedDown) {
  GrowthLimit limit;
  limit.proven = 1.08399, limit.broken = 1.0841;
  EXPECT_EQ(scaleFigure(limit, 2), QStringLiteral("× 1.083"));
  limit.proven = 0.2199;
  EXPECT_EQ(offsetFigure(limit, 5), QStringLiteral("0.21\u00a0mm"));
  limit.proven = 2, limit.broken.reset();
  EXPECT_EQ(scaleFigure(limit, 2), QStringLiteral("× 2.000 or more"));
  limit.none = true;
  EXPECT_EQ(scaleFigure(limit, 2), QStringLiteral("not at all"));
}

// sample_assemblies/hatch_box/README.md: the lid's hinge is the line through (0, 0, 24) along x.
TEST(GrowthWords, CentresAreTheJointsWhereTheyAreAndTheMiddle) {
  const Bench bench = Bench::hatchBox();
  const ScenePtr scene = bench.scene();
  const auto centres = growthCentres(*scene, part(*scene, "lid"));
  ASSERT_EQ(centres.size(), 2u);
  EXPECT_TRUE(centres[0].name.startsWith(QStringLiteral("its hinge ")));
  const Vector3d hinge_W = scene->assembly().part(part(*scene, "lid")).X_WP_home * centres[0].p_P;
  EXPECT_NEAR(hinge_W.y(), 0, 1e-9);
  EXPECT_NEAR(hinge_W.z(), 24, 1e-9);
  EXPECT_EQ(centres[1].name, QStringLiteral("its middle"));
}

}  // namespace
}  // namespace swingroom
