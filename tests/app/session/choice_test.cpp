#include "app/session/choice.h"

#include <gtest/gtest.h>

#include <QSignalSpy>

#include "app/session/visibility.h"

namespace swingroom {
namespace {

using Parts = std::vector<PartId>;

constexpr PartId kA{0}, kB{1}, kC{2}, kD{7};

TEST(Choice, ExactlyTwoPartsAreAPairWithTheLowerIdFirst) {
  Choice choice;
  EXPECT_FALSE(choice.pair() || choice.part());
  choice.choosePart(kC);
  EXPECT_FALSE(choice.pair());
  choice.addPart(kA);
  EXPECT_EQ(choice.pair(), PartPair(kA, kC));
  EXPECT_EQ(choice.part(), kA) << "the last";
  choice.addPart(kB);
  EXPECT_FALSE(choice.pair()) << "three are none";
  EXPECT_EQ(choice.parts(), (Parts{kC, kA, kB}));
  choice.togglePart(kA);
  EXPECT_EQ(choice.pair(), PartPair(kB, kC));
  choice.togglePart(kA);
  EXPECT_EQ(choice.parts(), (Parts{kC, kB, kA}));
}

TEST(Choice, OfAChosenPairTheFirstGivenIsTheLast) {
  Choice choice;
  choice.choosePair(kD, kB);
  EXPECT_EQ(choice.pair(), PartPair(kB, kD));
  EXPECT_EQ(choice.part(), kD);
  choice.choosePair(kB, kB);
  EXPECT_FALSE(choice.pair()) << "a part is no pair with itself";
  EXPECT_EQ(choice.part(), kB);
}

TEST(Choice, EachPartIsChosenOnceHoweverOftenItIsAdded) {
  Choice choice;
  choice.chooseParts({kB, kA, kB});
  EXPECT_EQ(choice.parts(), (Parts{kB, kA}));
  choice.addParts({kA, kC});
  EXPECT_EQ(choice.parts(), (Parts{kB, kA, kC}));
  choice.addPart(kB);
  EXPECT_EQ(choice.parts(), (Parts{kA, kC, kB})) << "it is the last now";
}

TEST(Choice, TellsOnlyWhatIsAnother) {
  Choice choice;
  QSignalSpy changes(&choice, &Choice::changed);
  choice.clear();
  choice.chooseParts({kA, kB, kC});
  choice.chooseParts({kA, kB, kC});
  choice.addParts({kB});
  EXPECT_EQ(changes.count(), 1);
  choice.clear();
  EXPECT_EQ(changes.count(), 2);
}

TEST(Visibility, HiddenAndGhostsAreKeptApart) {
  Visibility visibility;
  QSignalSpy changes(&visibility, &Visibility::changed);
  visibility.setGhost({kA, kB}, true);
  visibility.setHidden(Parts{kB, kC}, true);
  EXPECT_TRUE(visibility.isGhost(kB) && visibility.isHidden(kB));
  visibility.setHidden(Parts{kB, kC}, false);
  EXPECT_TRUE(visibility.isGhost(kB)) << "shown again as it was";
  EXPECT_FALSE(visibility.isGhost(kC) || visibility.isHidden(kC));
  EXPECT_EQ(changes.count(), 3);
  visibility.setHidden(Parts{kC}, false);
  visibility.setGhost({kA}, true);
  EXPECT_EQ(changes.count(), 3) << "nothing is another";
  EXPECT_TRUE(visibility.anyHidden());
  visibility.showAll();
  EXPECT_FALSE(visibility.anyHidden() || visibility.isGhost(kA));
}

TEST(Visibility, HiddenPartThatBecomesAGhostIsSeen) {
  Visibility visibility;
  visibility.setHidden(kA, true);
  visibility.setGhost({kA}, true);
  EXPECT_FALSE(visibility.isHidden(kA));
}

TEST(Visibility, ShowOnlyHidesTheOthersAndLeavesNoGhost) {
  Visibility visibility;
  visibility.setGhost({kA}, true);
  visibility.showOnly({kA, kC}, 4);
  for (std::size_t p = 0; p < 4; ++p) {
    EXPECT_EQ(visibility.isHidden(PartId{p}), p == 1 || p == 3) << p;
    EXPECT_FALSE(visibility.isGhost(PartId{p}));
  }
}

}  // namespace
}  // namespace swingroom
