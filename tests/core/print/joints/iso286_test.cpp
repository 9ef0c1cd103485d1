#include "core/print/joints/iso286.h"

#include <gtest/gtest.h>

#include <cstring>

namespace swingroom {
namespace {

constexpr double kExact = 1e-12;  // Tables: the same number, but for the rounding of mm.

// ISO 286-1:2010, Table 1, micrometres; as read in a maker's table of bar stock (h6 to h11) and in
// a tool catalogue (h6 to h9); the standard itself was not read.
TEST(ToleranceGrade, TableIsThatOfTheStandard) {
  const double um[6][6] = {{6, 10, 14, 25, 40, 60},   {8, 12, 18, 30, 48, 75},
                           {9, 15, 22, 36, 58, 90},   {11, 18, 27, 43, 70, 110},
                           {13, 21, 33, 52, 84, 130}, {16, 25, 39, 62, 100, 160}};
  const double ends[7] = {0, 3, 6, 10, 18, 30, 50};
  for (int range = 0; range < 6; ++range) {
    for (const double nominal : {ends[range] + 0.01, ends[range + 1]}) {
      for (int grade = 6; grade <= 11; ++grade) {
        SCOPED_TRACE(testing::Message() << "IT" << grade << " at " << nominal);
        const auto tolerance = standardToleranceMm(grade, nominal);
        ASSERT_TRUE(tolerance);
        EXPECT_NEAR(*tolerance, um[range][grade - 6] / 1000, kExact);
      }
    }
  }
}

TEST(ToleranceGrade, OutsideTheTableNothingIsSaid) {
  EXPECT_FALSE(standardToleranceMm(7, 0));
  EXPECT_FALSE(standardToleranceMm(7, -5));
  EXPECT_FALSE(standardToleranceMm(7, 50.001));
  EXPECT_FALSE(standardToleranceMm(5, 25));
  EXPECT_FALSE(standardToleranceMm(12, 25));
  EXPECT_FALSE(shaftLimitsMm('k', 7, 25));  // The table has k6 only.
  EXPECT_FALSE(shaftLimitsMm('u', 6, 25));
  for (const char* words :
       {"", "H7", "H7/", "H7/g", "h7/g6", "H7g6", "H/g6", "H7/6", "H7/g66", "H7/g-6", "H7x/g6"}) {
    EXPECT_FALSE(fitLimits(words, 25)) << words;
  }
}

// ISO 286-1 deviations of shafts, micrometres. n, p, s: Machine Drawing, Table 15.2, p. 216. c at
// 34: Shigley. The others from memory.
TEST(FundamentalDeviation, TableIsThatOfTheStandard) {
  const char letters[] = "cdfghknps";
  const double um[7][9] = {
      {-60, -20, -6, -2, 0, 0, 4, 6, 14},     {-70, -30, -10, -4, 0, 1, 8, 12, 19},
      {-80, -40, -13, -5, 0, 1, 10, 15, 23},  {-95, -50, -16, -6, 0, 1, 12, 18, 28},
      {-110, -65, -20, -7, 0, 2, 15, 22, 35}, {-120, -80, -25, -9, 0, 2, 17, 26, 43},
      {-130, -80, -25, -9, 0, 2, 17, 26, 43}};
  const double ends[8] = {0, 3, 6, 10, 18, 30, 40, 50};
  for (int range = 0; range < 7; ++range) {
    for (const double nominal : {ends[range] + 0.01, ends[range + 1]}) {
      for (int i = 0; i < 9; ++i) {
        SCOPED_TRACE(testing::Message() << letters[i] << " at " << nominal);
        const auto limits = shaftLimitsMm(letters[i], 6, nominal);
        ASSERT_TRUE(limits);
        const bool upper = std::strchr("cdfgh", letters[i]) != nullptr;
        EXPECT_NEAR((upper ? limits->upper : limits->lower) - nominal, um[range][i] / 1000, kExact);
        EXPECT_NEAR(limits->upper - limits->lower, *standardToleranceMm(6, nominal), kExact);
      }
    }
  }
}

struct WorkedFit {
  const char* fit;
  double nominal, holeLow, holeHigh, shaftLow, shaftHigh;
  FitClass kind;
};

// F-1: Shigley, Mechanical Engineering Design, 9th ed., Example 7-7, p. 398. The others: closed
// form from the tables (check values 4.3).
TEST(Fit, WorkedExamples) {
  constexpr FitClass c = FitClass::clearance, t = FitClass::transition, i = FitClass::interference;
  const WorkedFit fits[] = {
      {"H11/c11", 34, 34.000, 34.160, 33.720, 33.880, c},
      {"H7/g6", 25, 25.000, 25.021, 24.980, 24.993, c},
      {"H7/h6", 25, 25.000, 25.021, 24.987, 25.000, c},
      {"H8/f7", 25, 25.000, 25.033, 24.959, 24.980, c},
      {"H9/d9", 25, 25.000, 25.052, 24.883, 24.935, c},
      {"H11/c11", 25, 25.000, 25.130, 24.760, 24.890, c},
      {"H7/k6", 25, 25.000, 25.021, 25.002, 25.015, t},
      {"H7/n6", 25, 25.000, 25.021, 25.015, 25.028, t},
      {"H7/p6", 25, 25.000, 25.021, 25.022, 25.035, i},
      {"H7/s6", 25, 25.000, 25.021, 25.035, 25.048, i},
      {"H8/f7", 5, 5.000, 5.018, 4.978, 4.990, c},
      {"H7/g6", 8, 8.000, 8.015, 7.986, 7.995, c},
  };
  for (const WorkedFit& wanted : fits) {
    SCOPED_TRACE(testing::Message() << wanted.nominal << " " << wanted.fit);
    const auto fit = fitLimits(wanted.fit, wanted.nominal);
    ASSERT_TRUE(fit);
    EXPECT_NEAR(fit->hole.lower, wanted.holeLow, 1e-9);
    EXPECT_NEAR(fit->hole.upper, wanted.holeHigh, 1e-9);
    EXPECT_NEAR(fit->shaft.lower, wanted.shaftLow, 1e-9);
    EXPECT_NEAR(fit->shaft.upper, wanted.shaftHigh, 1e-9);
    EXPECT_EQ(fit->kind(), wanted.kind);
  }
  const FitLimits f1 = *fitLimits("H11/c11", 34);
  EXPECT_NEAR(f1.leastClearanceMm(), 0.120, 1e-9);
  EXPECT_NEAR(f1.mostClearanceMm(), 0.440, 1e-9);
}

// Shigley, 9th ed., Example 7-8: 2 in H7/s6, in inches; its size is beyond our table.
TEST(Fit, ShigleysDriveFitIsAnInterference) {
  const FitLimits fit{{2.0000, 2.0010}, {2.0017, 2.0023}};
  EXPECT_NEAR(-fit.mostClearanceMm(), 0.0007, 1e-9);
  EXPECT_NEAR(-fit.leastClearanceMm(), 0.0023, 1e-9);
  EXPECT_EQ(fit.kind(), FitClass::interference);
  EXPECT_FALSE(fitLimits("H7/s6", 50.8));
}

TEST(Fit, ClassTurnsWhereTheLimitsTouch) {
  EXPECT_EQ(classOf(0, 0.1), FitClass::clearance);
  EXPECT_EQ(classOf(-1e-9, 0.1), FitClass::transition);
  EXPECT_EQ(classOf(-0.1, 1e-9), FitClass::transition);
  EXPECT_EQ(classOf(-0.1, 0), FitClass::interference);
}

// Names: Shigley, Table 7-9, after ANSI B4.2-1978.
TEST(Fit, ReferenceIsTheFitWhoseMiddleIsNearest) {
  // 25 mm: H11/c11 goes from 0.110 to 0.370, H9/d9 from 0.065 to 0.169.
  EXPECT_EQ(nearestFit(0.240, 25)->fit, "H11/c11");
  EXPECT_EQ(nearestFit(0.240, 25)->name, "loose running");
  EXPECT_EQ(nearestFit(0.117, 25)->fit, "H9/d9");
  EXPECT_EQ(nearestFit(0.024, 25)->fit, "H7/g6");
  EXPECT_EQ(nearestFit(-0.031, 25)->fit, "H7/s6");
  EXPECT_EQ(nearestFit(-0.5, 25)->fit, "H7/s6");  // Beyond all: the nearest.
  EXPECT_EQ(nearestFit(2, 25)->fit, "H11/c11");
  EXPECT_FALSE(nearestFit(0.2, 60));
}

}  // namespace
}  // namespace swingroom
