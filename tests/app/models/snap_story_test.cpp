// What is asked and refused; the published figures are in
// tests/core/print/joints/snap_case_test.cpp and tests/app/window/snap_form_test.cpp.
#include "app/models/print/snap_story.h"

#include <gtest/gtest.h>

#include <set>

#include "core/base/transform.h"

namespace swingroom {
namespace {

SnapAsked askedOf(SnapKind kind, double each) {
  SnapAsked asked;
  asked.kind = kind;
  asked.lengthsMm.fill(each);
  asked.figures = {2000, 0.36, {0.2, 0.5}, radFromDeg(30), radFromDeg(45)};
  asked.permissible = 0.02;
  return asked;
}

void put(SnapAsked& asked, SnapLength length, double mm) {
  asked.lengthsMm[static_cast<std::size_t>(length)] = mm;
}

TEST(SnapStory, EveryLengthOfAKindHasANameOfItsOwn) {
  for (int kind = 0; kind <= static_cast<int>(SnapKind::press); ++kind) {
    std::set<QString> names;
    for (const SnapLength length : lengthsOf(static_cast<SnapKind>(kind))) {
      EXPECT_TRUE(names.insert(lengthName(static_cast<SnapKind>(kind), length)).second) << kind;
    }
    EXPECT_FALSE(names.empty());
    EXPECT_FALSE(names.contains(QString()));
  }
}

TEST(SnapStory, WhatCannotBeIsOneSentenceAndNoFigure) {
  std::vector<SnapAsked> wrong{askedOf(SnapKind::hook, 0), askedOf(SnapKind::hub, 5),
                               askedOf(SnapKind::shaft, 5), askedOf(SnapKind::ball, 5),
                               askedOf(SnapKind::press, 5)};
  SnapAsked friction = askedOf(SnapKind::hook, 5);
  friction.figures.friction = {0.5, 0.2};
  wrong.push_back(friction);
  for (const SnapAsked& asked : wrong) {
    const SnapStory story = snapStory(asked);
    EXPECT_TRUE(story.wrong.endsWith(QLatin1Char('.'))) << static_cast<int>(asked.kind);
    EXPECT_TRUE(story.lines.empty());
  }
}

TEST(SnapStory, EveryLineSaysWhatItIsFrom) {
  std::vector<SnapAsked> all{askedOf(SnapKind::hook, 5), askedOf(SnapKind::ball, 5)};
  put(all.back(), SnapLength::lip, 1);
  for (const SnapKind kind : {SnapKind::hub, SnapKind::shaft, SnapKind::press}) {
    all.push_back(askedOf(kind, 5));
    put(all.back(), SnapLength::outer, 9);
    put(all.back(), SnapLength::bore, 3);
  }
  for (const SnapAsked& asked : all) {
    const SnapStory story = snapStory(asked);
    EXPECT_TRUE(story.wrong.isEmpty()) << story.wrong.toStdString();
    EXPECT_GE(story.lines.size(), 2u);
    for (const SnapLine& line : story.lines) EXPECT_FALSE(line.from.isEmpty());
  }
}

// e = 1.5 y h / l^2 of one section: 1.5 * 0.5 * 1 / 36 = 2.083 %.
TEST(SnapStory, AboveThePermissibleIsMarkedAndASoftMaterialIsNotJudged) {
  SnapAsked asked = askedOf(SnapKind::hook, 1);
  put(asked, SnapLength::length, 6);
  put(asked, SnapLength::deflection, 0.5);
  EXPECT_TRUE(snapStory(asked).lines.front().bad);
  EXPECT_TRUE(snapStory(asked).notes.empty()) << "six times as long as thick";
  asked.permissible = 0.025;
  EXPECT_FALSE(snapStory(asked).lines.front().bad);
  asked.permissible.reset();
  EXPECT_FALSE(snapStory(asked).lines.front().bad);
  EXPECT_TRUE(snapStory(asked).lines.front().value.contains(QStringLiteral("not judged")));
  put(asked, SnapLength::length, 4);
  EXPECT_EQ(snapStory(asked).notes.size(), 1u);
}

}  // namespace
}  // namespace swingroom
