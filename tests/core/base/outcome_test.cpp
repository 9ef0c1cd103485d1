#include "core/base/outcome.h"

#include <gtest/gtest.h>

#include <memory>
#include <optional>

namespace swingroom {
namespace {

const Problem kNoArea{"lid.stl, triangle 812", "has no area", "repair the mesh"};

// Wording: house-style.md, `where: what (hint)`.
TEST(ProblemText, NamesWhereWhatAndHint) {
  EXPECT_EQ(toText(kNoArea), "lid.stl, triangle 812: has no area (repair the mesh)");
}

TEST(ProblemText, LeavesOutBracketsWithoutHint) {
  EXPECT_EQ(toText({"lid.stl", "is empty", ""}), "lid.stl: is empty");
}

TEST(Outcome, WithAValueIsOkAndHasNoProblems) {
  const Outcome<int> outcome = 7;
  EXPECT_TRUE(outcome.ok());
  EXPECT_TRUE(static_cast<bool>(outcome));
  EXPECT_EQ(*outcome, 7);
  EXPECT_TRUE(outcome.problems().empty());
}

TEST(Outcome, WithAProblemIsNotOkAndKeepsIt) {
  const Outcome<int> outcome = kNoArea;
  EXPECT_FALSE(outcome.ok());
  ASSERT_EQ(outcome.problems().size(), 1u);
  EXPECT_EQ(outcome.problems().front(), kNoArea);
}

TEST(Outcome, KeepsAllProblemsInOrder) {
  const Problem second{"b", "c", ""};
  const Outcome<int> outcome = Problems{kNoArea, second};
  EXPECT_FALSE(outcome.ok());
  EXPECT_EQ(outcome.problems(), (Problems{kNoArea, second}));
}

TEST(Outcome, AskingAFailedOneForItsValueThrows) {
  const Outcome<int> outcome = kNoArea;
  EXPECT_THROW((void)outcome.value(), std::bad_optional_access);
}

TEST(Outcome, HandsOutAValueThatCannotBeCopied) {
  Outcome<std::unique_ptr<int>> outcome = std::make_unique<int>(3);
  const std::unique_ptr<int> taken = std::move(outcome).value();
  EXPECT_EQ(*taken, 3);
}

}  // namespace
}  // namespace swingroom
