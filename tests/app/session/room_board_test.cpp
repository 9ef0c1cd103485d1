#include "app/session/room/room_board.h"

#include <gtest/gtest.h>

#include <QSignalSpy>
#include <cmath>

#include "app/models/room_words.h"
#include "tests/app/support/rooms.h"
#include "tests/app/support/wait.h"

namespace swingroom {
namespace {

/// A session with the press of tests/app/support/rooms.h, and the board.
class RoomBoardTest : public ::testing::Test {
 protected:
  void SetUp() override {
    ASSERT_TRUE(session_.open(writeRoomPress(press_)).empty());
    ASSERT_TRUE(waitUntilQuiet(session_));
    ASSERT_NE(session_.scene(), nullptr);
  }
  void lookAtSled(double resolutionMm = 0.1) {
    board_.ask(part(*session_.scene(), "sled"), resolutionMm);
    ASSERT_TRUE(waitUntil([&] { return board_.state() != RoomBoard::State::looking; }));
  }
  void edit(const std::function<void(AssemblyDocument&)>& change) {
    const ScenePtr before = session_.scene();
    AssemblyDocument document = session_.document().document();
    change(document);
    session_.document().edit(QStringLiteral("test"), document);
    ASSERT_TRUE(waitUntil([&] { return session_.scene() != before && !session_.isLoading(); }));
  }

  Bench press_ = Bench::press();
  Session session_{testReader()};
  RoomBoard board_{session_};
};

// Every place's bracket holds the closed form: the least over the piece lies between the form at
// its corners and there, for the form is concave (a least of linear ones) and least at a corner.
TEST_F(RoomBoardTest, FiguresHoldTheClosedFormOnTheSledsSides) {
  lookAtSled();
  ASSERT_EQ(board_.state(), RoomBoard::State::done);
  ASSERT_NE(board_.map(), nullptr);
  EXPECT_TRUE(board_.map()->done);
  EXPECT_LE(board_.map()->resolutionMm, 0.1);
  int sides = 0;
  for (const RoomPlace& place : board_.map()->places) {
    const auto onSide = [&](double y) {
      return std::all_of(place.corners_P.begin(), place.corners_P.end(),
                         [&](const Vector3d& p) { return std::abs(p.y() - y) < 1e-9; });
    };
    if (!onSide(2) && !onSide(8)) continue;
    ++sides;
    double least = 5;
    for (const Vector3d& p : place.corners_P) least = std::min(least, sledRoomMm(p));
    EXPECT_LE(place.lowerMm, least + 1e-5);  // STL is single precision.
    EXPECT_GE(place.upperMm, least - 1e-5);
    EXPECT_LE(place.upperMm - place.lowerMm, 0.1 + 1e-9);
  }
  EXPECT_GT(sides, 20);
}

TEST_F(RoomBoardTest, LeastRoomIsUnderTheRail) {
  lookAtSled();
  const auto summary = summaryOf(*board_.map());
  ASSERT_TRUE(summary);
  EXPECT_LE(summary->lowerMm, 0.1 + 1e-5);
  EXPECT_GE(summary->upperMm, 0.1 - 1e-5);
  EXPECT_GT(summary->lowerMm, 0);
  ASSERT_TRUE(summary->place);
  const RoomPlace& place = board_.map()->places[*summary->place];
  ASSERT_TRUE(place.stop);
  EXPECT_EQ(place.stop->part, part(*board_.scene(), "rail"));
  EXPECT_EQ(roomStop(*board_.scene(), place).left(13), QStringLiteral("next to rail,"));
}

TEST_F(RoomBoardTest, StoppedItKeepsWhatIsKnownAndGoesOnWhenAsked) {
  board_.ask(part(*session_.scene(), "sled"), 0.02);
  EXPECT_EQ(board_.state(), RoomBoard::State::looking);
  board_.stop();
  EXPECT_EQ(board_.state(), RoomBoard::State::stopped);
  const auto known = board_.map();
  letTimePass();  // What was under way must not arrive any more.
  EXPECT_EQ(board_.state(), RoomBoard::State::stopped);
  EXPECT_EQ(board_.map(), known);
  lookAtSled();
  EXPECT_EQ(board_.state(), RoomBoard::State::done);
}

TEST_F(RoomBoardTest, AnEditThatChangesNothingOfItLeavesItValid) {
  lookAtSled();
  edit([](AssemblyDocument& document) {
    document.name = "another";
    document.parts[2].name = "beam";
  });
  EXPECT_FALSE(board_.isOld());
  EXPECT_EQ(board_.scene(), session_.scene());
  const auto summary = summaryOf(*board_.map());
  EXPECT_EQ(roomStop(*board_.scene(), board_.map()->places[*summary->place]).left(13),
            QStringLiteral("next to beam,"));
}

TEST_F(RoomBoardTest, AnEditOfARuleMakesItOldAndAskingAgainTakesTheNewRule) {
  lookAtSled();
  const ScenePtr before = session_.scene();
  edit([](AssemblyDocument& document) { document.requiredGap = 0.15; });
  EXPECT_TRUE(board_.isOld());
  EXPECT_NE(board_.map(), nullptr);
  EXPECT_EQ(board_.scene(), before);  // By whose names it still speaks.
  lookAtSled();
  EXPECT_FALSE(board_.isOld());
  const auto summary = summaryOf(*board_.map());
  EXPECT_LE(summary->lowerMm, 0.05 + 1e-5);
  EXPECT_GE(summary->upperMm, 0.05 - 1e-5);
}

TEST_F(RoomBoardTest, APartThatIsGoneOrHasAnotherMeshIsDropped) {
  lookAtSled();
  edit([](AssemblyDocument& document) { document.parts[1].stages["block"] = "cap.stl"; });
  EXPECT_EQ(board_.state(), RoomBoard::State::empty);
  EXPECT_EQ(board_.map(), nullptr);
}

TEST_F(RoomBoardTest, WhatIsUnderWayIsAskedAgainOfTheChangedDocument) {
  board_.ask(part(*session_.scene(), "sled"), 0.1);
  edit([](AssemblyDocument& document) { document.requiredGap = 0.15; });
  ASSERT_TRUE(waitUntil([&] { return board_.state() == RoomBoard::State::done; }));
  EXPECT_EQ(board_.scene(), session_.scene());
  EXPECT_FALSE(board_.isOld());
}

TEST_F(RoomBoardTest, NewsComeCoarseFirstAndNeverWiden) {
  std::vector<double> reached;
  QObject::connect(&board_, &RoomBoard::changed, [&] {
    if (board_.map() && board_.map()->resolutionMm > 0)
      reached.push_back(board_.map()->resolutionMm);
  });
  lookAtSled(0.1);
  ASSERT_FALSE(reached.empty());
  EXPECT_TRUE(std::is_sorted(reached.rbegin(), reached.rend()));
}

// 2 + d - 0.1 and 8.2 - z - 0.1: figures are rounded down, never up.
TEST(RoomWords, FiguresAreRoundedDown) {
  EXPECT_EQ(roomFigure(1.2478), QStringLiteral("1.24\u00a0mm"));
  EXPECT_EQ(roomFigure(0.3), QStringLiteral("0.30\u00a0mm"));
  EXPECT_EQ(roomFigure(0.009), QStringLiteral("0.00\u00a0mm"));
  EXPECT_EQ(roomFigure(1.08399, 3), QStringLiteral("1.083\u00a0mm"));
}

RoomPlace placeWith(RoomState state, double lowerMm, double upperMm, double sideMm = 1) {
  RoomPlace place;
  place.corners_P = {Vector3d(0, 0, 0), Vector3d(sideMm, 0, 0), Vector3d(0, sideMm, 0)};
  place.state = state;
  place.lowerMm = lowerMm, place.upperMm = upperMm;
  return place;
}

TEST(RoomWords, SummaryTakesTheLeastBoundsAndTheSharesOfAreas) {
  RoomMap map;
  map.capMm = 5;
  EXPECT_EQ(summaryOf(map), std::nullopt);
  map.places = {placeWith(RoomState::zone, 0, 0, 2)};
  EXPECT_EQ(summaryOf(map), std::nullopt);
  map.places.push_back(placeWith(RoomState::room, 1.0, 1.3));
  map.places.back().stop = RoomPlace::Stop{PartId{1}, 0, 0.5};
  map.places.push_back(placeWith(RoomState::room, 1.1, 1.15));
  map.places.back().stop = RoomPlace::Stop{PartId{2}, 0, 0.5};
  map.places.push_back(placeWith(RoomState::capped, 5, 5));
  const auto summary = summaryOf(map);
  ASSERT_TRUE(summary);
  EXPECT_EQ(summary->lowerMm, 1.0);   // Somewhere there may be only so much,
  EXPECT_EQ(summary->upperMm, 1.15);  // and somewhere there is no more than this.
  EXPECT_EQ(summary->place, 2u);
  EXPECT_EQ(summary->shareWithout, 0);
  EXPECT_DOUBLE_EQ(summary->shareLeftOut, 4.0 / 7);
  map.places.push_back(placeWith(RoomState::none, 0, 0));
  map.places.back().stop = RoomPlace::Stop{PartId{1}, 0, 0.25};
  const auto worse = summaryOf(map);
  EXPECT_EQ(worse->lowerMm, 0);
  EXPECT_EQ(worse->place, 4u);
  EXPECT_EQ(worse->shareWithout, 0.25);
}

TEST(RoomWords, FinenessSaysWhereItStandsAndWhetherItGoesOn) {
  EXPECT_EQ(fineness(0, 0.1, true), QStringLiteral("looking, to 0.1 mm"));
  EXPECT_EQ(fineness(0.3, 0.1, true), QStringLiteral("to 0.3 mm so far, going on to 0.1 mm"));
  EXPECT_EQ(fineness(0.1, 0.1, false), QStringLiteral("known to 0.1 mm"));
  EXPECT_EQ(fineness(0, 0.1, false), QString());
}

}  // namespace
}  // namespace swingroom
