// The press in closed form: at instant t block and sled are 4 - 5 t apart, the required gap is 0.3.
#include "app/models/ribbon.h"

#include <gtest/gtest.h>

#include <cmath>

#include "app/edits/pair_edits.h"
#include "tests/app/support/assemblies.h"

namespace swingroom {
namespace {

constexpr double kClashEnd = 1e-4;  ///< What a check promises of a clash's ends.

std::vector<std::string> rowNames(const Ribbon& ribbon) {
  std::vector<std::string> names;
  for (const RibbonRow& row : ribbon.rows) names.push_back(row.names.toStdString());
  return names;
}

std::vector<RibbonRun> runsOfTone(const RibbonRow& row, RibbonTone tone) {
  std::vector<RibbonRun> runs;
  for (const RibbonRun& run : row.runs) {
    if (run.tone == tone) runs.push_back(run);
  }
  return runs;
}

class RibbonTest : public ::testing::Test {
 protected:
  PartPair pair(const char* a, const char* b) const { return {part(*scene_, a), part(*scene_, b)}; }
  void check(const AssemblyDocument& document) {
    scene_ = bench_.scene(document);
    board_ = checkedBoard(scene_);
  }

  Bench bench_ = Bench::press();
  ScenePtr scene_ = bench_.scene();
  CheckBoard board_ = checkedBoard(scene_);
};

TEST_F(RibbonTest, RowsAreWorstFirstAndFarPairsAreCounted) {
  const Ribbon ribbon = ribbonOf(board_, 0, std::nullopt);
  // Ten pairs; parts that touch by design come last.
  EXPECT_EQ(rowNames(ribbon),
            (std::vector<std::string>{"block, sled", "sled, rail", "block, cap"}));
  EXPECT_EQ(ribbon.farPairs, 7u);
  EXPECT_EQ(ribbon.waiting, 0u);
  EXPECT_EQ(ribbon.rows[0].verdict, Verdict::clash);
  EXPECT_EQ(ribbon.rows[1].verdict, Verdict::tight);
  EXPECT_EQ(ribbon.rows[2].verdict, Verdict::clear);
  EXPECT_NEAR(numbersIn(ribbon.rows[0].figure.toStdString()).at(0), 1, 0.02);
}

TEST_F(RibbonTest, AStretchLiesExactlyBetweenItsInstants) {
  const Ribbon ribbon = ribbonOf(board_, 0, std::nullopt);
  const auto clashes = runsOfTone(ribbon.rows[0], RibbonTone::clash);
  ASSERT_EQ(clashes.size(), 1u);
  EXPECT_NEAR(clashes[0].from, 0.8, kClashEnd);
  EXPECT_EQ(clashes[0].to, 1);
  const auto tight = runsOfTone(ribbon.rows[1], RibbonTone::tight);
  ASSERT_EQ(tight.size(), 1u);
  EXPECT_EQ(tight[0], (RibbonRun{0, 1, RibbonTone::tight, 0})) << "0.2 all the way";
  for (const RibbonRow& row : ribbon.rows) {
    const auto& stretches =
        board_.report().results[0].pairs[board_.pairIndex(row.a, row.b).value()].stretches;
    ASSERT_GE(row.runs.size(), stretches.size());
    for (std::size_t s = 0; s < stretches.size(); ++s) {
      const RibbonRun& run = row.runs[row.runs.size() - stretches.size() + s];
      EXPECT_EQ(run.from, stretches[s].from) << "painted last, unmoved";
      EXPECT_EQ(run.to, stretches[s].to);
    }
  }
}

TEST_F(RibbonTest, NearnessIsOneAtTheRequiredGapAndZeroFrom1Point5AboveIt) {
  // look.md: "far gaps fade, the blue deepens as a gap nears what is required"; 1.5 above it a gap
  // no longer matters (core/sweep/plan.h).
  const Ribbon ribbon = ribbonOf(board_, 0, std::nullopt);
  const auto gaps = runsOfTone(ribbon.rows[0], RibbonTone::gap);
  ASSERT_FALSE(gaps.empty());
  EXPECT_EQ(gaps.front().from, 0);
  EXPECT_EQ(gaps.front().nearness, 0);
  // In sixteenths, and of the least gap within one of 160 cells, which is 5 / 160 mm wide.
  const double tolerance = 0.5 / 16 + 5.0 / 160 / 1.5;
  double end = 0;
  for (const RibbonRun& run : gaps) {
    EXPECT_EQ(run.from, end) << "no hole between runs";
    end = run.to;
    if (run.from >= 0.8) continue;  // Under the clash.
    for (double t = run.from; t <= run.to; t += (run.to - run.from) / 8) {
      const double share = std::clamp(1 - (4 - 5 * t - 0.3) / 1.5, 0.0, 1.0);
      EXPECT_NEAR(run.nearness, share, tolerance) << "at " << t;
    }
  }
  EXPECT_EQ(end, 1);
}

TEST_F(RibbonTest, AModeOnItsOwnHasItsRows) {
  const Ribbon ribbon = ribbonOf(board_, 1, std::nullopt);
  EXPECT_EQ(rowNames(ribbon), (std::vector<std::string>{"sled, rail", "block, cap"}));
  EXPECT_EQ(ribbon.farPairs, 8u) << "parked, the sled is 3 from the block";
}

TEST_F(RibbonTest, AChosenFarPairHasItsRow) {
  const Ribbon ribbon = ribbonOf(board_, 0, pair("block", "post"));
  ASSERT_EQ(ribbon.rows.size(), 4u);
  EXPECT_EQ(ribbon.farPairs, 6u) << "it is not counted twice";
  const auto row = std::find_if(ribbon.rows.begin(), ribbon.rows.end(), [&](const RibbonRow& r) {
    return PartPair(r.a, r.b) == pair("block", "post");
  });
  ASSERT_NE(row, ribbon.rows.end());
  EXPECT_EQ(row->verdict, Verdict::clear);
  EXPECT_EQ(row->runs, (std::vector<RibbonRun>{{0, 1, RibbonTone::gap, 0}}));
}

TEST_F(RibbonTest, AChosenNearPairHasNoSecondRow) {
  EXPECT_EQ(ribbonOf(board_, 0, pair("block", "sled")), ribbonOf(board_, 0, std::nullopt));
}

TEST_F(RibbonTest, PairsNotYetCheckedWaitAndAreCalledNothing) {
  CheckBoard board(scene_);
  EXPECT_EQ(ribbonOf(board, 0, std::nullopt), (Ribbon{{}, 0, 10}));
  const Ribbon chosen = ribbonOf(board, 0, pair("block", "sled"));
  ASSERT_EQ(chosen.rows.size(), 1u);
  EXPECT_EQ(chosen.waiting, 10u);
  EXPECT_EQ(chosen.rows[0].verdict, std::nullopt);
  EXPECT_TRUE(chosen.rows[0].figure.isEmpty());
  EXPECT_EQ(chosen.rows[0].runs, (std::vector<RibbonRun>{{0, 1, RibbonTone::pending, 0}}));
  const std::size_t first = pairOf(board, "sled", "rail");
  board.put(checkedOnce(*scene_, 0, first, board_.report().results[0].pairs[first]));
  const Ribbon one = ribbonOf(board, 0, pair("block", "sled"));
  EXPECT_EQ(rowNames(one), (std::vector<std::string>{"sled, rail", "block, sled"}))
      << "what is known stands before what is not";
  EXPECT_EQ(one.waiting, 9u);
}

TEST_F(RibbonTest, AnAllowedPairIsShownAsAllowedAllTheWay) {
  check(edits::allowance(bench_.document(), "block", "sled", "it is pressed"));
  const Ribbon ribbon = ribbonOf(board_, 0, std::nullopt);
  const auto row = std::find_if(ribbon.rows.begin(), ribbon.rows.end(),
                                [](const RibbonRow& r) { return r.verdict == Verdict::allowed; });
  ASSERT_NE(row, ribbon.rows.end());
  EXPECT_EQ(row->runs, (std::vector<RibbonRun>{{0, 1, RibbonTone::allowed, 0}}));
}

TEST_F(RibbonTest, PartsThatTouchByDesignAreShownAsAllowed) {
  const Ribbon ribbon = ribbonOf(board_, 0, std::nullopt);
  for (const RibbonRun& run : ribbon.rows[2].runs) EXPECT_EQ(run.tone, RibbonTone::allowed);
}

TEST_F(RibbonTest, NothingOpenOrNoSuchWayIsAnEmptyRibbon) {
  EXPECT_EQ(ribbonOf(CheckBoard(), 0, std::nullopt), Ribbon{});
  EXPECT_EQ(ribbonOf(board_, 2, std::nullopt), Ribbon{});
}

TEST_F(RibbonTest, TheLineHasItsStationsAndSteps) {
  const ScenePtr box = Bench::hatchBox().scene();
  const WayLine line = lineOf(*box, 0);
  EXPECT_EQ(line, (WayLine{QStringLiteral("closed"),
                           QStringLiteral("open"),
                           {QStringLiteral("bolt back"), QStringLiteral("lid up")},
                           false}));
  EXPECT_EQ(wayTitle(*box, 0), QStringLiteral("open up: closed to open"));
}

TEST_F(RibbonTest, AWayThatStandsStillIsCalledByItsMode) {
  EXPECT_TRUE(lineOf(*scene_, 1).standsStill);
  EXPECT_FALSE(lineOf(*scene_, 0).standsStill);
  EXPECT_EQ(wayTitle(*scene_, 1), QStringLiteral("mode parked"));
  AssemblyDocument document = bench_.document();
  document.modes.clear();
  document.sequences.clear();
  EXPECT_EQ(wayTitle(*bench_.scene(document), 0), QStringLiteral("mode as modelled"));
}

TEST_F(RibbonTest, TheCurveIsThatOfThePairAndItsLines) {
  const std::size_t sled = pairOf(board_, "block", "sled");
  const CurveDrawing curve = curveOf(board_, 0, sled);
  EXPECT_EQ(curve.requiredMm, 0.3);
  EXPECT_EQ(curve.capMm, 1.8);
  EXPECT_EQ(curve.steps, 1u);
  ASSERT_GE(curve.samples.size(), 64u);
  for (const GapSample& sample : curve.samples) {
    const double gapMm = std::clamp(4 - 5 * sample.instant, 0.0, 1.8);  // No depths yet.
    EXPECT_NEAR(sample.gapMm, gapMm, 1e-5) << sample.instant;
  }
  EXPECT_EQ(curve.stretches, resultOf(board_, 0, "block", "sled").stretches);
}

}  // namespace
}  // namespace swingroom
