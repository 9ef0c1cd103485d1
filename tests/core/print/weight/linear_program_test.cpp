#include <gtest/gtest.h>

#include "core/print/weight/linear_program.h"

namespace swingroom {
namespace {

// Hillier and Lieberman, Introduction to Operations Research, the glass company's example (from
// memory): most of 3x + 5y is 36, at (2, 6).
TEST(LinearProgram, TextbookExample) {
  LinearProgram program;
  const std::size_t x = program.addVariable(-3), y = program.addVariable(-5);
  program.addLimit({{x, 1}}, 4);
  program.addLimit({{y, 2}}, 12);
  program.addLimit({{x, 3}, {y, 2}}, 18);
  const auto values = program.solve();
  ASSERT_TRUE(values);
  EXPECT_NEAR((*values)[x], 2, 1e-9);
  EXPECT_NEAR((*values)[y], 6, 1e-9);
}

TEST(LinearProgram, EqualitiesWithNegativeRightSide) {
  LinearProgram program;
  const std::size_t x = program.addVariable(1), y = program.addVariable(2);
  program.addEquality({{x, -1}, {y, -1}}, -3);
  program.addLimit({{x, 1}}, 1);
  const auto values = program.solve();
  ASSERT_TRUE(values);
  EXPECT_NEAR((*values)[x], 1, 1e-9);
  EXPECT_NEAR((*values)[y], 2, 1e-9);
}

TEST(LinearProgram, ContradictionsAndCostsWithoutBoundHaveNoAnswer) {
  LinearProgram contradiction;
  const std::size_t x = contradiction.addVariable(1);
  contradiction.addEquality({{x, 1}}, 2);
  contradiction.addLimit({{x, 1}}, 1);
  EXPECT_FALSE(contradiction.solve());
  LinearProgram unbounded;
  const std::size_t y = unbounded.addVariable(-1);
  unbounded.addLimit({{y, -1}}, 1);
  EXPECT_FALSE(unbounded.solve());
}

// A row twice, and one of zeros.
TEST(LinearProgram, RowsThatSayNothingNewAreNoTrouble) {
  LinearProgram program;
  const std::size_t x = program.addVariable(1), y = program.addVariable(1);
  program.addEquality({{x, 1}, {y, 1}}, 2);
  program.addEquality({{x, 2}, {y, 2}}, 4);
  program.addEquality({{x, 0}}, 0);
  const auto values = program.solve();
  ASSERT_TRUE(values);
  EXPECT_NEAR((*values)[x] + (*values)[y], 2, 1e-9);
}

}  // namespace
}  // namespace swingroom
