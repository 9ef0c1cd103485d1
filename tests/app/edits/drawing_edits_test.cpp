// Pictures on the figure's sides.
#include "app/edits/drawing_edits.h"

#include <cmath>

#include "app/edits/mode_edits.h"
#include "core/files/document/moved_document.h"
#include "tests/app/edits/boat_edits.h"

namespace swingroom {
namespace {

const char* const kDrawing = R"([{"op": "add", "path": "/drawings", "value": [
  {"view": "left", "picture": "pictures/side.png", "at": [10, 20], "mmPerPixel": 0.25, "opacity": 0.4,
   "mode": "robot"}]}])";

DocumentDrawing sideDrawing() {
  DocumentDrawing drawing;
  drawing.view = StandardView::left;
  drawing.picture = "pictures/side.png";
  drawing.at = {10, 20};
  drawing.mmPerPixel = 0.25;
  drawing.opacity = 0.4;
  drawing.mode = "robot";
  return drawing;
}

TEST(DrawingEdits, OneIsLaidOnItsViewAndTakenAwayAgain) {
  const AssemblyDocument with = edits::withDrawing(boat(), sideDrawing());
  EXPECT_EQ(writeDocument(with), writeDocument(boatWith(kDrawing)));
  EXPECT_TRUE(mistakesIn(with).empty()) << textOf(mistakesIn(with));
  EXPECT_EQ(writeDocument(edits::withoutDrawing(with, StandardView::left)), writeDocument(boat()));
  EXPECT_EQ(writeDocument(edits::withoutDrawing(with, StandardView::top)), writeDocument(with));
}

TEST(DrawingEdits, ASecondOnTheSameViewTakesItsPlace) {
  DocumentDrawing other = sideDrawing();
  other.picture = "other.jpg";
  const AssemblyDocument with =
      edits::withDrawing(edits::withDrawing(boat(), sideDrawing()), other);
  ASSERT_EQ(with.drawings.size(), 1u);
  EXPECT_EQ(edits::drawingOn(with, StandardView::left)->picture, "other.jpg");
  EXPECT_EQ(edits::drawingOn(with, StandardView::front), nullptr);
}

// 30 mm apart, to be 75: two and a half times. The first point stays: its pixel is where it was.
TEST(DrawingEdits, TwoPointsScaleItAboutTheFirst) {
  const auto scaled = edits::scaledByPoints(sideDrawing(), {4, 8}, {4, 38}, 75);
  ASSERT_TRUE(scaled);
  EXPECT_NEAR(scaled->mmPerPixel, 0.625, 1e-7);
  EXPECT_NEAR(scaled->at[0], 4 + 2.5 * (10 - 4), 1e-3);
  EXPECT_NEAR(scaled->at[1], 8 + 2.5 * (20 - 8), 1e-3);
  for (const double wrong : {0.0, -2.0, std::nan("")}) {
    EXPECT_FALSE(edits::scaledByPoints(sideDrawing(), {4, 8}, {4, 38}, wrong));
  }
  EXPECT_FALSE(edits::scaledByPoints(sideDrawing(), {4, 8}, {4, 8}, 10));
}

TEST(DrawingEdits, AFreshOneIsAsHighAsTheFigure) {
  const DocumentDrawing fresh =
      edits::freshDrawing(StandardView::front, "front.png", 800, 120, {1.23456, -2});
  EXPECT_NEAR(800 * fresh.mmPerPixel, 120, 1e-3);
  EXPECT_EQ(fresh.at, (TwoNumbers{1.235, -2}));
}

TEST(DrawingEdits, ItsModeIsRenamedWithTheMode) {
  const AssemblyDocument with = boatWith(kDrawing);
  const auto renamed = edits::renameMode(with, "robot", "walker");
  ASSERT_TRUE(renamed);
  EXPECT_EQ(renamed->drawings[0].mode, "walker");
  EXPECT_TRUE(mistakesIn(*renamed).empty());
  const auto removed = edits::removeMode(with, "robot");
  ASSERT_TRUE(removed);
  EXPECT_FALSE(removed->document.drawings[0].mode);
}

TEST(DrawingEdits, ItsPictureIsFoundFromAnotherFolderToo) {
  const AssemblyDocument moved = movedDocument(boatWith(kDrawing), "/work/tug", "/work/out/large");
  EXPECT_EQ(moved.drawings[0].picture, "../../tug/pictures/side.png");
}

TEST(DrawingEdits, WhatIsWrongWithOneIsTold) {
  const std::pair<const char*, const char*> wrong[] = {
      {R"({"op": "replace", "path": "/drawings/0/mmPerPixel", "value": 0})", "must be above 0"},
      {R"({"op": "replace", "path": "/drawings/0/opacity", "value": 1.5})", "from 0 to 1"},
      {R"({"op": "replace", "path": "/drawings/0/mode", "value": "car"})", "car"},
      {R"({"op": "replace", "path": "/drawings/0/picture", "value": ""})", "is empty"},
      {R"({"op": "copy", "from": "/drawings/0", "path": "/drawings/1"})", "has a drawing already"}};
  for (const auto& [patch, words] : wrong) {
    const std::string all =
        std::string(kDrawing).substr(0, std::string(kDrawing).rfind(']')) + "," + patch + "]";
    expectRefused(mistakesIn(boatWith(all.c_str())), words);
  }
}

}  // namespace
}  // namespace swingroom
