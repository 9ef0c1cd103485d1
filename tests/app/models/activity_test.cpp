// Clear is said only when proven; "nothing found" and "not looked" are two different sentences
// (product.md, 4).
#include "app/models/activity.h"

#include <gtest/gtest.h>

#include "app/edits/pair_edits.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/support/wait.h"

namespace swingroom {
namespace {

class ActivityTest : public ::testing::Test {
 protected:
  std::string doing() const { return activityText(session_).toStdString(); }
  std::string sentence() const { return findingsSentence(session_).toStdString(); }
  static bool has(const std::string& text, const std::string& word) {
    return text.find(word) != std::string::npos;
  }
  void openAndWait(const Bench& bench) {
    ASSERT_EQ(session_.open(bench.file()), Problems{});
    ASSERT_TRUE(waitUntilQuiet(session_));
  }

  Bench bench_ = Bench::hatchBox();
  Session session_{testReader()};
};

TEST_F(ActivityTest, NothingIsSaidOfNothing) {
  EXPECT_EQ(doing(), "");
  EXPECT_EQ(sentence(), "");
  EXPECT_TRUE(tightestText(session_.board()).isEmpty());
}

TEST_F(ActivityTest, AtEverySignalWhatIsNotLookedAtIsNotCalledProvenOrChecked) {
  int looks = 0;
  const auto look = [&] {
    ++looks;
    const bool all = session_.scene() && session_.board().isComplete() &&
                     session_.problems().empty() && !session_.isLoading();
    if (all) return;
    EXPECT_FALSE(has(doing(), "Checked")) << doing();
    EXPECT_FALSE(has(sentence(), "proven")) << sentence();
    const bool said = has(sentence(), "so far") || has(sentence(), "not every pair");
    EXPECT_TRUE(sentence().empty() || said) << sentence();
  };
  QObject::connect(&session_, &Session::activityChanged, look);
  QObject::connect(&session_, &Session::boardChanged, look);
  QObject::connect(&session_, &Session::sceneChanged, look);
  QObject::connect(&session_, &Session::problemsChanged, look);
  openAndWait(bench_);
  session_.checkAgain();
  ASSERT_TRUE(waitUntilQuiet(session_));
  const AssemblyDocument& document = session_.document().document();
  session_.document().edit(QStringLiteral("a"), edits::requiredGap(document, "box", "lid", 0.4));
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_GT(looks, 6);
}

TEST_F(ActivityTest, CompleteAndClearIsCalledProven) {
  openAndWait(bench_);
  EXPECT_TRUE(has(sentence(), "proven")) << sentence();
  EXPECT_TRUE(has(doing(), "Checked: 3 pairs on 1 way")) << doing();
  EXPECT_TRUE(has(doing(), "resolution 0.01 mm")) << doing();
  EXPECT_TRUE(has(doing(), "as printed: not checked")) << doing();
}

TEST_F(ActivityTest, TheTightestThatPassesIsLidAndBolt) {
  openAndWait(bench_);
  // README.md of the sample: 0.4, at every instant; in the joint zone there is less, by its fit.
  const std::string text = tightestText(session_.board()).toStdString();
  EXPECT_TRUE(has(text, "lid and bolt")) << text;
  EXPECT_NEAR(numbersIn(text).at(0), 0.4, 0.01) << text;
  EXPECT_TRUE(has(text, "bolt back")) << text;
}

TEST_F(ActivityTest, WithFindingsThereIsNoSentenceAndTheActivityStaysTrue) {
  openAndWait(Bench::press());
  EXPECT_EQ(sentence(), "");
  EXPECT_TRUE(has(doing(), "10 pairs on 2 ways")) << doing();
}

TEST_F(ActivityTest, AStoppedCheckSaysThatTheRestIsNotLookedAt) {
  QObject::connect(&session_, &Session::activityChanged, [this] {
    if (!session_.isChecking()) return;
    EXPECT_TRUE(has(doing(), "Checking: 0 of 3")) << doing();
    EXPECT_TRUE(has(sentence(), "so far")) << sentence();
    session_.stopCheck();
  });
  openAndWait(bench_);
  EXPECT_TRUE(has(doing(), "Stopped: 0 of 3")) << doing();
  EXPECT_TRUE(has(doing(), "not looked at")) << doing();
  EXPECT_TRUE(has(sentence(), "not every pair")) << sentence();
  EXPECT_TRUE(tightestText(session_.board()).isEmpty());
}

TEST_F(ActivityTest, WhatCannotBeCheckedIsNotCalledProvenByWhatWasBefore) {
  openAndWait(bench_);
  AssemblyDocument document = session_.document().document();
  document.parts[2].stages["block"] = "lost.stl";
  session_.document().edit(QStringLiteral("lose a file"), document);
  EXPECT_FALSE(has(sentence(), "proven")) << "it is being read";
  ASSERT_TRUE(waitUntilQuiet(session_));
  ASSERT_FALSE(session_.problems().empty());
  EXPECT_TRUE(has(doing(), "Not checked")) << doing();
  EXPECT_FALSE(has(sentence(), "proven")) << sentence();
}

}  // namespace
}  // namespace swingroom
