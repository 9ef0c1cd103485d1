// What the card says, against the closed forms of sample_assemblies/hatch_box/README.md.
#include "app/models/pair_story.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "app/edits/pair_edits.h"
#include "app/models/pair_text.h"
#include "tests/app/support/assemblies.h"

namespace swingroom {
namespace {

constexpr double kFloat32Mm = 5e-6;

class PairStoryTest : public ::testing::Test {
 protected:
  PairStory story(const AssemblyDocument& document, const char* a, const char* b) {
    const CheckBoard board = checkedBoard(bench_.scene(document));
    return storyOf(board, 0, pairOf(board, a, b));
  }
  static std::string fact(const PairStory& story, const std::string& name) {
    for (const PairStory::Fact& fact : story.facts) {
      if (fact.name.toStdString() == name) return fact.value.toStdString();
    }
    return {};
  }
  /// "between 0.49 and 0.5 mm" holds it; bounds are rounded outwards.
  static void expectBracketHolds(const std::string& words, double gapMm) {
    std::vector<double> bounds = numbersIn(words);
    ASSERT_FALSE(bounds.empty()) << words;
    EXPECT_LE(bounds.front(), gapMm + kFloat32Mm) << words;
    EXPECT_GE(bounds.back(), gapMm - kFloat32Mm) << words;
    EXPECT_LE(bounds.back() - bounds.front(), 0.01 + 0.002) << "resolution, rounded to 0.001";
  }
  static std::string allWords(const PairStory& story) {
    QString all = story.names + story.figure + story.where + story.advice + story.adviceMore;
    for (const PairStory::Fact& fact : story.facts) all += fact.name + fact.value;
    return all.toStdString();
  }

  Bench bench_ = Bench::hatchBox();
  AssemblyDocument document_ = bench_.document();
};

TEST_F(PairStoryTest, AClearPairHasItsBracketsAndItsPlace) {
  const PairStory told = story(document_, "box", "lid");
  EXPECT_EQ(told.names, QStringLiteral("box and lid"));
  EXPECT_EQ(told.verdict, Verdict::clear);
  expectBracketHolds(fact(told, "Least gap"), 0.5);
  EXPECT_NEAR(numbersIn(told.figure.toStdString()).at(0), 0.5, 0.01);
  const std::string joint = fact(told, "In the zone of lid hinge");
  EXPECT_EQ(joint.rfind("clear", 0), 0u) << joint;
  expectBracketHolds(joint, 0.21);
  // "step 2 lid up, instant 0.5739": at atan(14 / 48) of 110 degrees in the second half, within
  // the resolution of 0.01 mm there.
  EXPECT_TRUE(told.where.contains(QStringLiteral("step 2 lid up"))) << told.where.toStdString();
  EXPECT_NEAR(numbersIn(told.where.toStdString()).back(), 0.573910, 2e-4);
  EXPECT_TRUE(told.advice.isEmpty());
  EXPECT_EQ(told.requiredMm, 0.3);
  EXPECT_FALSE(told.hasOwnRequired);
}

TEST_F(PairStoryTest, TheOtherPairsHaveTheirClosedForms) {
  expectBracketHolds(fact(story(document_, "box", "bolt"), "Least gap"), 0.6);
  expectBracketHolds(fact(story(document_, "bolt", "lid"), "Least gap"), 0.4);
}

TEST_F(PairStoryTest, ATightPairIsAdvisedToShaveWhatIsMissing) {
  const struct {
    const char *a, *b;
    double gapMm, requiredMm;
  } cases[] = {{"box", "lid", 0.5, 0.6}, {"box", "bolt", 0.6, 0.75}, {"lid", "bolt", 0.4, 0.43}};
  for (const auto& [a, b, gapMm, requiredMm] : cases) {
    const PairStory told = story(edits::requiredGap(document_, a, b, requiredMm), a, b);
    EXPECT_EQ(told.verdict, Verdict::tight);
    EXPECT_TRUE(told.hasOwnRequired);
    EXPECT_EQ(told.requiredMm, requiredMm);
    const auto numbers = numbersIn(told.advice.toStdString());  // To keep A, take B off ...
    ASSERT_EQ(numbers.size(), 2u) << told.advice.toStdString();
    EXPECT_NEAR(numbers[0], requiredMm, 1e-9);
    // Never less than what is missing; the bracket may be 0.01 wide, the figure is rounded up.
    EXPECT_GE(numbers[1], requiredMm - gapMm - 1e-4);
    EXPECT_LT(numbers[1], requiredMm - gapMm + 0.01 + 0.01);
    EXPECT_TRUE(told.adviceMore.contains(QString::fromLatin1(a)));
    EXPECT_TRUE(told.adviceMore.contains(QString::fromLatin1(b)));
  }
}

TEST_F(PairStoryTest, TheAdviceNamesThePlacesOfTheClosedForm) {
  const PairStory told = story(edits::requiredGap(document_, "box", "lid", 0.6), "box", "lid");
  // "box at (x, -50.50, 24.00), or lid at (x, -50.00, 24.00)": wall and skirt, at the axis' height.
  const auto numbers = numbersIn(told.adviceMore.toStdString());
  ASSERT_GE(numbers.size(), 6u) << told.adviceMore.toStdString();
  EXPECT_NEAR(numbers[1], -50.5, 0.011);
  EXPECT_NEAR(numbers[4], -50, 0.011);
  // A gap 0.01 larger is where the edge is 50 (1 - cos d) back: within 1.15 degrees, 1 mm.
  EXPECT_NEAR(numbers[2], 24, 1.01);
}

TEST_F(PairStoryTest, AClashSaysFromWhereToWhereHowDeepAndByWhat) {
  const Bench press = Bench::press();
  const CheckBoard board = checkedBoard(press.scene());
  const PairStory told = storyOf(board, 0, pairOf(board, "block", "sled"));
  EXPECT_EQ(told.verdict, Verdict::clash);
  const std::string clash = fact(told, "clash");
  const auto numbers = numbersIn(clash);
  ASSERT_EQ(numbers.size(), 3u) << clash;
  EXPECT_NEAR(numbers[0], 0.8, 1.5e-4);
  EXPECT_NEAR(numbers[1], 1, 1e-9);
  EXPECT_NEAR(numbers[2], 1, 0.025);
  EXPECT_NE(clash.find("sled way"), std::string::npos) << clash;
  EXPECT_TRUE(fact(told, "Least gap").empty()) << "there is none";
  // 1 deep and 0.3 required.
  const auto advised = numbersIn(told.advice.toStdString());
  ASSERT_EQ(advised.size(), 2u) << told.advice.toStdString();
  EXPECT_NEAR(advised[1], 1.3, 0.025 + 0.01);
}

TEST_F(PairStoryTest, StepsTheOtherWayRoundClashWhereTheReadmeSays) {
  std::swap(document_.sequences[0].steps[0], document_.sequences[0].steps[1]);
  const PairStory told = story(document_, "box", "bolt");
  EXPECT_EQ(told.verdict, Verdict::clash);
  // 53.1 sin t + 8.1 cos t = 8.7 at t = 0.6480 degrees, of 110 in the first half.
  EXPECT_NEAR(numbersIn(fact(told, "clash")).at(0), 0.6480 / 220, 2e-4);
}

TEST_F(PairStoryTest, AnAllowedPairShowsItsReason) {
  const PairStory told =
      story(edits::allowance(document_, "lid", "box", "a latch: it clicks"), "box", "lid");
  EXPECT_EQ(told.verdict, Verdict::allowed);
  EXPECT_EQ(told.allowedBecause, QStringLiteral("a latch: it clicks"));
  EXPECT_TRUE(told.advice.isEmpty());
}

TEST_F(PairStoryTest, AnAllowedOverlapHasItsDepth) {
  const Bench press = Bench::press();
  const CheckBoard board =
      checkedBoard(press.scene(edits::allowance(press.document(), "block", "sled", "pressed")));
  const PairStory told = storyOf(board, 0, pairOf(board, "block", "sled"));
  EXPECT_EQ(told.verdict, Verdict::allowed);
  EXPECT_TRUE(told.figure.contains(QStringLiteral("deep"))) << told.figure.toStdString();
  EXPECT_NEAR(numbersIn(told.figure.toStdString()).at(0), 1, 0.02);
}

TEST_F(PairStoryTest, APairNotYetCheckedSaysSoAndIsNeverCalledClear) {
  const CheckBoard board(bench_.scene(edits::allowance(document_, "box", "bolt", "a bolt")));
  for (const auto& [a, b] : {std::pair("box", "lid"), std::pair("box", "bolt")}) {
    const PairStory told = storyOf(board, 0, pairOf(board, a, b));
    EXPECT_EQ(told.verdict, std::nullopt);
    EXPECT_EQ(told.figure, QStringLiteral("being checked"));
    EXPECT_TRUE(told.facts.empty());
    EXPECT_EQ(allWords(told).find("clear"), std::string::npos);
    EXPECT_EQ(allWords(told).find("unproven"), std::string::npos) << "nobody has tried";
  }
}

TEST_F(PairStoryTest, AFarPairIsFarAllTheWay) {
  const Bench press = Bench::press();
  const CheckBoard board = checkedBoard(press.scene());
  const PairStory told = storyOf(board, 0, pairOf(board, "block", "post"));
  EXPECT_EQ(told.verdict, Verdict::clear);
  EXPECT_EQ(told.where, QStringLiteral("all the way"));
  const std::string gap = fact(told, "Least gap");
  EXPECT_EQ(gap.rfind("more than", 0), 0u) << gap;
  EXPECT_LE(numbersIn(gap).at(0), 90);
  EXPECT_GE(numbersIn(gap).at(0), 1.8 - 1e-9) << "what matters and no less";
}

TEST_F(PairStoryTest, APartThatIsNoClosedSolidIsSaidToBeNotJudgedInside) {
  const Bench press = Bench::press();
  openStl(press.folder() / "rail.stl");
  const CheckBoard board = checkedBoard(press.scene());
  EXPECT_NE(fact(storyOf(board, 0, pairOf(board, "rail", "post")), "Inside").find("not judged"),
            std::string::npos);
  EXPECT_TRUE(fact(storyOf(board, 0, pairOf(board, "block", "post")), "Inside").empty());
}

TEST(NowText, SaysTheGapTheDepthOrThatTheyOverlap) {
  const PairNow apart{{}, false, 0.344, std::nullopt, std::nullopt};
  EXPECT_EQ(labelText(apart), QStringLiteral("0.34\u00a0mm"));
  EXPECT_EQ(nowText(apart), QStringLiteral("now 0.34\u00a0mm"));
  const PairNow meeting{{}, true, 0, std::nullopt, std::nullopt};
  EXPECT_EQ(nowText(meeting), QStringLiteral("now in overlap"));
  const PairNow deep{{}, true, 0, 1.2, std::nullopt};
  EXPECT_EQ(nowText(deep), QStringLiteral("now 1.20\u00a0mm deep"));
}

// At atan(14 / 48) of 110 degrees, with the bolt still where the first step put it: between box and
// lid only the hinge stands.
TEST_F(PairStoryTest, TheWorstPlaceHasItsPointsAndTheJointsBetweenTheTwo) {
  const PairStory told = story(document_, "box", "lid");
  std::map<std::string, std::string> facts;
  for (const PairStory::Fact& fact : told.atWorst) {
    facts[fact.name.toStdString()] = fact.value.toStdString();
  }
  const std::string joints = facts["Joints there"];
  EXPECT_EQ(joints.rfind("lid hinge ", 0), 0u) << joints;
  EXPECT_EQ(joints.find("bolt"), std::string::npos) << "it holds neither against the other";
  const double degrees = std::atan2(14.0, 48.0) * 180 / M_PI;
  EXPECT_NEAR(numbersIn(joints).at(0), degrees, 0.1);
  const std::vector<double> points = numbersIn(facts["Points"]);
  ASSERT_EQ(points.size(), 6u) << facts["Points"];
  const double apart =
      std::hypot(points[0] - points[3], points[1] - points[4], points[2] - points[5]);
  EXPECT_NEAR(apart, 0.5, 0.03) << "the gap, of coordinates with two decimals";
}

TEST_F(PairStoryTest, ContactsAreToldWithPlaceAndReason) {
  DocumentContact contact;
  contact.steps = {"lid up"};
  contact.reason = "lies on the rim";
  const PairStory told = story(edits::contact(document_, "box", "lid", contact), "box", "lid");
  ASSERT_EQ(told.contacts.size(), 1u);
  EXPECT_EQ(told.contacts[0].toStdString(), "rest in step lid up: lies on the rim");
}

// What the brief of the card asks for, line by line.
TEST_F(PairStoryTest, AsTextItHasVerdictBoundsPlaceValuesPointsAndAdvice) {
  const PairStory told = story(edits::requiredGap(document_, "box", "lid", 0.8), "box", "lid");
  const std::string text = textOf(told, QStringLiteral("open it: closed to open")).toStdString();
  EXPECT_EQ(text.rfind("tight: box and lid\n", 0), 0u) << text;
  for (const char* words :
       {"0.50 mm apart, step 2 lid up, instant 0.57", "Least gap: between 0.4",
        "open it: closed to open", "Required gap: 0.80 mm", "Joints there: lid hinge 16.3",
        "Points: (", "To keep 0.80 mm, take 0.3", "as printed: not checked"}) {
    EXPECT_NE(text.find(words), std::string::npos) << words << " in\n" << text;
  }
  EXPECT_EQ(text.find('<'), std::string::npos) << "plain, no markup";
}

}  // namespace
}  // namespace swingroom
