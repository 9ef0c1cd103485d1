// Which unit a figure's files are in, by its size. Expected: the examples of the maker's own words
// (110 units tall is mm, 0.11 is m, 4.3 is inches, 11 is cm), 1 inch = 25.4 mm.
#include "core/mesh/unit_guess.h"

#include <gtest/gtest.h>

#include "tests/support/shapes.h"

namespace swingroom {
namespace {

using Eigen::Vector3d;

UnitGuess guessTall(double height) {
  return guessUnit({0.4 * height, 0.55 * height, height});
}

TEST(UnitGuess, SizesOfPalmSizedFiguresAreKnownInEachUnit) {
  EXPECT_EQ(guessTall(110).unit, LengthUnit::mm);
  EXPECT_EQ(guessTall(0.11).unit, LengthUnit::m);
  EXPECT_EQ(guessTall(4.3).unit, LengthUnit::inch);
  EXPECT_EQ(guessTall(11).unit, LengthUnit::cm);
  for (const double height : {110.0, 0.11, 4.3, 11.0}) EXPECT_TRUE(guessTall(height).sure);
}

TEST(UnitGuess, TheLongestSideCountsWhicheverItIs) {
  EXPECT_EQ(guessUnit({0.11, 0.02, 0.03}).unit, LengthUnit::m);
  EXPECT_EQ(guessUnit({2, 4.3, 1}).unit, LengthUnit::inch);
}

// 7 units: 70 mm in cm, 178 mm in inches: 110 / 70 = 1.57, 178 / 110 = 1.62.
TEST(UnitGuess, BetweenTwoUnitsMmIsKeptAndBothAreNamed) {
  const UnitGuess guess = guessTall(7);
  EXPECT_EQ(guess.unit, LengthUnit::mm);
  EXPECT_FALSE(guess.sure);
  ASSERT_TRUE(guess.between);
  EXPECT_EQ((*guess.between)[0], LengthUnit::cm);
  EXPECT_EQ((*guess.between)[1], LengthUnit::inch);
  const std::string text = guessText(guess);
  for (const char* words : {"cm or inches?", "mm is kept", "70 mm", "178 mm"}) {
    EXPECT_NE(text.find(words), std::string::npos) << words << " in: " << text;
  }
}

TEST(UnitGuess, SmallAndLargeFiguresInMmStayButAreNotSure) {
  for (const double height : {22.0, 25.0, 500.0, 1100.0, 110'000.0}) {
    EXPECT_EQ(guessTall(height).unit, LengthUnit::mm) << height;
    EXPECT_FALSE(guessTall(height).sure) << height;
  }
  for (const double height : {31.0, 180.0, 440.0}) EXPECT_TRUE(guessTall(height).sure) << height;
}

TEST(UnitGuess, NothingAtAllStaysMm) {
  EXPECT_EQ(guessUnit(Vector3d::Zero()).unit, LengthUnit::mm);
  EXPECT_FALSE(guessUnit(Vector3d::Zero()).sure);
  EXPECT_EQ(guessTall(1e-9).unit, LengthUnit::mm);
}

TEST(UnitGuess, TheWordsTellWhatOtherUnitsWouldMean) {
  const std::string text = guessText(guessUnit({108, 44, 61}));
  EXPECT_EQ(text.find("108 x 44 x 61 units: mm guessed; "), 0u) << text;
  EXPECT_NE(text.find("in inches 2743 mm"), std::string::npos) << text;  // 108 * 25.4 = 2743.2.
  const std::string metres = guessText(guessUnit({0.108, 0.044, 0.061}));
  EXPECT_NE(metres.find("m guessed, 108 mm at the longest"), std::string::npos) << metres;
  EXPECT_NE(metres.find("in inches it would be 2.74 mm"), std::string::npos) << metres;
}

std::vector<Eigen::AlignedBox3d> boxes(std::initializer_list<double> lengths) {
  std::vector<Eigen::AlignedBox3d> all;
  for (const double length : lengths) {
    all.emplace_back(Vector3d::Zero(), Vector3d(length, length / 2, length / 3));
  }
  return all;
}

TEST(PartsOff, OneInMetresAmongMmIsFound) {
  const auto off = partsOff(boxes({80, 42, 0.06, 6}));
  ASSERT_EQ(off.size(), 1u);
  EXPECT_EQ(off[0].part, 2u);
  EXPECT_EQ(off[0].factor, 1000);
}

TEST(PartsOff, OneInMicrometresAmongMmIsFound) {
  const auto off = partsOff(boxes({80, 42000, 60, 6}));
  ASSERT_EQ(off.size(), 1u);
  EXPECT_EQ(off[0].part, 1u);
  EXPECT_EQ(off[0].factor, 0.001);
}

TEST(PartsOff, OfTwoTheOneThatIsNoSizeOfAPart) {
  const auto small = partsOff(boxes({80, 0.06}));
  ASSERT_EQ(small.size(), 1u);
  EXPECT_EQ(small[0].part, 1u);
  const auto large = partsOff(boxes({80, 60'000}));
  ASSERT_EQ(large.size(), 1u);
  EXPECT_EQ(large[0].part, 1u);
}

TEST(PartsOff, PinsBesideLargePlatesAreNone) {
  EXPECT_TRUE(partsOff(boxes({300, 250, 3, 3, 3})).empty());
  EXPECT_TRUE(partsOff(boxes({200, 2})).empty());
  EXPECT_TRUE(partsOff(boxes({110, 60, 30, 12, 4})).empty());
  EXPECT_TRUE(partsOff(boxes({110})).empty());
  EXPECT_TRUE(partsOff({}).empty());
}

TEST(ScaleBetween, IsTheUnitsRatioWhereverThePartStands) {
  std::mt19937_64 random(7001);
  const TriangleMesh mesh = shapes::tube(8, 5, 0, 20, 24);
  const TriangleMesh inches = transformed(mesh, Eigen::Affine3d(Eigen::Scaling(1 / 25.4)));
  const auto scale = scaleBetween(mesh, shapes::moved(inches, shapes::randomPose(random, 50)));
  ASSERT_TRUE(scale);
  EXPECT_NEAR(*scale, 1 / 25.4, 1e-9);
  ASSERT_TRUE(ratioOfUnits(*scale));
  EXPECT_EQ(*ratioOfUnits(*scale), 1 / 25.4);
  EXPECT_FALSE(scaleBetween(mesh, TriangleMesh()));
}

TEST(ScaleBetween, OtherRatiosAreOfNoUnits) {
  for (const double ratio : {1.0, 1.05, 2.0, 0.5, 30.0}) EXPECT_FALSE(ratioOfUnits(ratio)) << ratio;
  for (const double ratio : {10.0, 100.0, 1000.0, 0.001, 2.54, 1000 / 25.4}) {
    EXPECT_TRUE(ratioOfUnits(ratio)) << ratio;
  }
}

}  // namespace
}  // namespace swingroom
