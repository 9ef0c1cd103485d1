// Which rows the ribbon shows by part, and what a part's row says: at each instant the worst of its
// pairs, worked out here by looking at each pair's runs one instant at a time.
#include "app/models/ribbon_lines.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "app/models/kept_part.h"
#include "app/models/ribbon.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/support/near_cluster.h"

namespace swingroom {
namespace {

using Kind = RibbonLine::Kind;

RibbonRow rowOfPair(std::size_t a, std::size_t b, Verdict verdict, std::vector<RibbonRun> runs) {
  RibbonRow row;
  row.a = {a};
  row.b = {b};
  row.partNames = {QString::number(a), QString::number(b)};
  row.names = row.partNames[0] + QStringLiteral(", ") + row.partNames[1];
  row.verdict = verdict;
  row.runs = std::move(runs);
  return row;
}

/// What is seen of runs at an instant: the last that covers it.
RibbonRun seenAt(const std::vector<RibbonRun>& runs, double instant) {
  RibbonRun seen{0, 1, RibbonTone::allowed, -1};
  for (const RibbonRun& run : runs) {
    if (run.from <= instant && instant < run.to) seen = run;
  }
  return seen;
}

/// By the words of product.md and look.md: clash, tight, loose and unproven in this order, then
/// what is not looked at, then gaps by how near they are.
std::pair<int, double> badness(const RibbonRun& run) {
  const RibbonTone order[] = {RibbonTone::allowed,  RibbonTone::gap,   RibbonTone::pending,
                              RibbonTone::unproven, RibbonTone::loose, RibbonTone::tight,
                              RibbonTone::clash};
  const auto at = std::find(std::begin(order), std::end(order), run.tone);
  return {static_cast<int>(at - std::begin(order)), run.nearness};
}

Ribbon threePairs() {
  Ribbon ribbon;
  ribbon.rows = {rowOfPair(1, 2, Verdict::clash,
                           {{0, 1, RibbonTone::gap, 0.25}, {0.5, 0.75, RibbonTone::clash, 0}}),
                 rowOfPair(1, 3, Verdict::tight,
                           {{0, 0.5, RibbonTone::gap, 0.5}, {0.25, 1, RibbonTone::tight, 0}}),
                 rowOfPair(3, 4, Verdict::clear, {{0, 1, RibbonTone::gap, 0.75}})};
  ribbon.farPairs = 3;
  return ribbon;
}

TEST(RibbonParts, CarryTheWorstOfTheirPairsAtEachInstant) {
  const auto parts = partsOf(threePairs());
  ASSERT_EQ(parts.size(), 4u);
  EXPECT_EQ(parts[0].part, PartId{1});
  EXPECT_EQ(parts[0].verdict, Verdict::clash);
  EXPECT_EQ(parts[0].pairs, (std::vector<std::size_t>{0, 1}));
  EXPECT_EQ(parts[0].runs, (std::vector<RibbonRun>{{0, 0.25, RibbonTone::gap, 0.5},
                                                   {0.25, 0.5, RibbonTone::tight, 0},
                                                   {0.5, 0.75, RibbonTone::clash, 0},
                                                   {0.75, 1, RibbonTone::tight, 0}}));
  EXPECT_EQ(parts[2].part, PartId{3});
  EXPECT_EQ(parts[2].verdict, Verdict::tight);
  EXPECT_EQ(parts[3].runs, (std::vector<RibbonRun>{{0, 1, RibbonTone::gap, 0.75}}));
}

TEST(RibbonParts, OfRandomRibbonsAreTheWorstAtRandomInstants) {
  constexpr unsigned kSeed = 20261;
  RecordProperty("seed", kSeed);
  std::mt19937 random(kSeed);
  std::uniform_real_distribution<double> share(0, 1);
  for (int round = 0; round < 40; ++round) {
    Ribbon ribbon;
    for (std::size_t r = 0; r < 12; ++r) {
      std::vector<RibbonRun> runs;
      for (int k = 0; k < 6; ++k) {
        const double from = share(random), to = std::min(1.0, from + share(random) / 2);
        runs.push_back({from, to, static_cast<RibbonTone>(random() % 7), share(random)});
      }
      ribbon.rows.push_back(rowOfPair(r % 5, 5 + r % 4, Verdict::clear, runs));
    }
    for (const RibbonPart& part : partsOf(ribbon)) {
      for (int k = 0; k < 50; ++k) {
        const double instant = share(random);
        std::pair<int, double> worst{0, -1};
        for (const RibbonRow& row : ribbon.rows) {
          if (row.a != part.part && row.b != part.part) continue;
          worst = std::max(worst, badness(seenAt(row.runs, instant)));
        }
        ASSERT_EQ(badness(seenAt(part.runs, instant)), worst)
            << "seed " << kSeed << ", round " << round << ", instant " << instant;
        const RibbonRow& shown = ribbon.rows[worstPairAt(ribbon, part, instant)];
        const RibbonRun seen = seenAt(shown.runs, instant);
        if (seen.nearness >= 0) {
          EXPECT_EQ(badness(seen), worst);
        }
      }
    }
  }
}

TEST(RibbonLines, ByPairAreTheRowsAsTheyAre) {
  RibbonLines lines;
  lines.setRibbon(threePairs());
  ASSERT_EQ(lines.lines().size(), 4u);
  for (std::size_t l = 0; l < 3; ++l) EXPECT_EQ(lines.lines()[l], (RibbonLine{Kind::pair, l, {}}));
  EXPECT_EQ(lines.lines()[3].kind, Kind::far);
  EXPECT_EQ(lines.lineOf(PartId{3}, PartId{1}), 1u);
  lines.setAllOpen(true);
  EXPECT_EQ(lines.lines().size(), 4u) << "there is nothing to open";
}

TEST(RibbonLines, APartOpensToItsPairsAndStaysOpen) {
  RibbonLines lines;
  lines.setRibbon(threePairs());
  lines.setByPart(true);
  ASSERT_EQ(lines.lines().size(), 5u) << "four parts, and the far ones";
  lines.setOpen(PartId{1}, true);
  ASSERT_EQ(lines.lines().size(), 7u);
  EXPECT_EQ(lines.lines()[1], (RibbonLine{Kind::pair, 0, 0}));
  EXPECT_EQ(lines.lines()[2], (RibbonLine{Kind::pair, 1, 0}));
  Ribbon more = threePairs();
  more.rows.push_back(rowOfPair(1, 4, Verdict::clear, {{0, 1, RibbonTone::gap, 0}}));
  lines.setRibbon(more);
  EXPECT_EQ(lines.lines().size(), 8u) << "open to the new one too";
  lines.setAllOpen(false);
  EXPECT_EQ(lines.lines().size(), 5u);
  lines.setAllOpen(true);
  EXPECT_EQ(lines.lines().size(), 4u + 8u + 1u) << "each pair under both of its parts";
}

TEST(RibbonLines, APairIsFoundUnderThePartThatIsMeantOrInItsFold) {
  RibbonLines lines;
  lines.setRibbon(threePairs());
  lines.setByPart(true);
  EXPECT_EQ(lines.lineOf(PartId{1}, PartId{3}), 0u) << "folded: the part that comes first";
  EXPECT_EQ(lines.lineOf(PartId{1}, PartId{3}, PartId{3}), 2u);
  lines.setOpen(PartId{3}, true);
  // 1, 2, 3, (3's: 1, 4), 4.
  EXPECT_EQ(lines.lineOf(PartId{1}, PartId{3}), 3u);
  EXPECT_EQ(lines.lineOf(PartId{1}, PartId{3}, PartId{1}), 0u) << "meant in the fold of 1";
  lines.setAllOpen(true);
  EXPECT_EQ(lines.lineOf(PartId{3}, PartId{1}, PartId{3}), 6u);
  EXPECT_EQ(lines.lineOf(PartId{4}), 8u);
  EXPECT_FALSE(lines.lineOf(PartId{2}, PartId{4}).has_value());
}

TEST(KeptPart, StaysWhileItsPairsAreGoneThrough) {
  Choice choice;
  std::optional<PartId> kept;
  const auto keep = [&] { return kept = keptPart(kept, choice); };
  EXPECT_FALSE(keep());
  choice.choosePart({4});
  EXPECT_EQ(keep(), PartId{4});
  choice.choosePair({2}, {4});
  EXPECT_EQ(keep(), PartId{4});
  choice.choosePair({4}, {7});
  EXPECT_EQ(keep(), PartId{4});
  choice.choosePair({1}, {2});
  EXPECT_EQ(keep(), PartId{1});
  choice.clear();
  EXPECT_FALSE(keep());
}

class NearCluster : public ::testing::Test {
 protected:
  static void SetUpTestSuite() {
    static TempFolder folder;
    const auto file = writeNearCluster(folder.path());
    const MeshReader reader = testReader();
    const auto made = makeScene(documentOf(file), file, {&reader, 1, nullptr}, nullptr);
    ASSERT_TRUE(made);
    board_ = std::make_unique<CheckBoard>(checkedBoard(*made));
  }
  static void TearDownTestSuite() { board_.reset(); }

  static std::unique_ptr<CheckBoard> board_;
};
std::unique_ptr<CheckBoard> NearCluster::board_;

// 40 * 39 / 2 pairs, of which the farthest is 1.61 at rest: all nearer than 0.2 + 1.5.
TEST_F(NearCluster, AllOf780PairsHaveTheirRows) {
  const Ribbon ribbon = ribbonOf(*board_, 0, std::nullopt);
  EXPECT_EQ(ribbon.rows.size(), 780u);
  EXPECT_EQ(ribbon.farPairs, 0u);
  const auto parts = partsOf(ribbon);
  ASSERT_EQ(parts.size(), 40u);
  for (const RibbonPart& part : parts) EXPECT_EQ(part.pairs.size(), 39u);
}

TEST_F(NearCluster, OnlyOnePartsRowsAreShownWhenAsked) {
  const PartId third = part(*board_->scene(), "cube_3");
  const Ribbon ribbon = ribbonOf(*board_, 0, std::nullopt, third);
  EXPECT_EQ(ribbon.rows.size(), 39u);
  for (const RibbonRow& row : ribbon.rows) EXPECT_TRUE(row.a == third || row.b == third);
}

}  // namespace
}  // namespace swingroom
