#include "app/session/check/check_board.h"

#include <gtest/gtest.h>

#include "app/edits/pair_edits.h"
#include "app/session/check/check_run.h"
#include "core/store/kept_check.h"
#include "core/store/pair_record.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/support/wait.h"

namespace swingroom {
namespace {

std::size_t countOf(const CheckBoard& board, Verdict verdict) {
  return board.counts()[static_cast<std::size_t>(verdict)];
}

/// The press has 5 parts, so 10 pairs, on two ways: "push" and the mode "parked".
class CheckBoardTest : public ::testing::Test {
 protected:
  /// How many results still hold after an edit, of 20.
  std::size_t kept(const AssemblyDocument& document) const {
    CheckBoard board(bench_.scene(document, scene_.get()));
    board.takeOver(board_);
    return board.pairsKnown();
  }

  Bench bench_ = Bench::press();
  AssemblyDocument document_ = bench_.document();
  ScenePtr scene_ = bench_.scene();
  CheckBoard board_ = checkedBoard(scene_);
};

TEST_F(CheckBoardTest, KnowsNothingAtFirstAndEverythingWhenAllHasCome) {
  const CheckBoard blank(scene_);
  EXPECT_EQ(blank.pairsInAll(), 20u);
  EXPECT_EQ(blank.pairsKnown(), 0u);
  EXPECT_FALSE(blank.isComplete());
  EXPECT_TRUE(blank.findings().empty()) << "what is not known is no finding";
  for (const std::size_t count : blank.counts()) EXPECT_EQ(count, 0u);
  EXPECT_TRUE(board_.isComplete());
  EXPECT_EQ(board_.report().results, swept(*scene_));
}

TEST_F(CheckBoardTest, CountsTheWorstOfEachPairOverAllWays) {
  // Block and sled clash on the way and are clear when parked; sled and rail are tight in both.
  EXPECT_EQ(countOf(board_, Verdict::clash), 1u);
  EXPECT_EQ(countOf(board_, Verdict::tight), 1u);
  EXPECT_EQ(countOf(board_, Verdict::clear), 8u);
  ASSERT_EQ(board_.findings().size(), 2u);
  EXPECT_EQ(board_.findings()[0].verdict, Verdict::clash);
  EXPECT_EQ(board_.findings()[1].verdict, Verdict::tight);
}

TEST_F(CheckBoardTest, CountsOnlyPairsThatAreKnownInEveryWay) {
  CheckBoard board(scene_);
  const std::size_t pair = pairOf(board, "block", "sled");
  const auto results = swept(*scene_);
  board.put(checkedOnce(*scene_, 0, pair, results[0].pairs[pair]));
  board.refresh();
  EXPECT_EQ(countOf(board, Verdict::clash), 0u);
  EXPECT_EQ(board.findings().size(), 1u) << "a clash is told as soon as it is found";
  board.put(checkedOnce(*scene_, 1, pair, results[1].pairs[pair]));
  EXPECT_EQ(countOf(board, Verdict::clash), 1u);
  EXPECT_EQ(board.pairsKnown(), 2u);
  board.put(checkedOnce(*scene_, 1, pair, results[1].pairs[pair]));
  EXPECT_EQ(board.pairsKnown(), 2u) << "the same once more";
}

TEST_F(CheckBoardTest, APairIsFoundEitherWayRound) {
  const PartId rail = part(*scene_, "rail"), sled = part(*scene_, "sled");
  const auto index = board_.pairIndex(rail, sled);
  ASSERT_TRUE(index);
  EXPECT_EQ(board_.pairIndex(sled, rail), index);
  const PairResult& found = board_.report().results[0].pairs[*index];
  EXPECT_EQ(std::pair(found.a, found.b), std::pair(sled, rail));
  EXPECT_EQ(board_.pairIndex(sled, sled), std::nullopt);
  EXPECT_EQ(board_.pairIndex(sled, PartId{99}), std::nullopt);
  EXPECT_EQ(CheckBoard().pairIndex(sled, rail), std::nullopt);
}

TEST_F(CheckBoardTest, EverythingHoldsWhenOnlyColoursAndWordsChange) {
  document_.name = "Fruit press";
  document_.process = "resin";
  document_.parts[2].material = "steel";
  EXPECT_EQ(kept(edits::colour(document_, "sled", "#102030")), 20u);
}

TEST_F(CheckBoardTest, EverythingHoldsWhenModesWaysStepsPartsAndJointsAreRenamed) {
  document_.sequences[0].name = "squeeze";
  document_.sequences[0].steps[0].name = "go";
  document_.modes[0].name = document_.sequences[0].from = "open";
  document_.modes[2].name = "rest";
  document_.parts[4].name = "pole";
  document_.joints[0].name = document_.joints[0].name + " (new)";
  document_.modes[0].values = {{document_.joints[0].name, 0.0}};
  document_.modes[1].values = {{document_.joints[0].name, 5.0}};
  document_.modes[2].values = {{document_.joints[0].name, 1.0}};
  document_.sequences[0].steps[0].moves = {{document_.joints[0].name, 5.0}};
  const ScenePtr now = bench_.scene(document_, scene_.get());
  CheckBoard board(now);
  board.takeOver(board_);
  EXPECT_TRUE(board.isComplete());
  // And it is what a check would say.
  EXPECT_EQ(board.report().results, swept(*now));
}

TEST_F(CheckBoardTest, WhatAModeMoreOrLessLeavesStandingHolds) {
  AssemblyDocument twice = document_;
  twice.modes.insert(twice.modes.begin(), twice.modes[2]);
  twice.modes[0].name = "parked too";
  const ScenePtr now = bench_.scene(twice, scene_.get());
  CheckBoard board(now);
  board.takeOver(board_);
  EXPECT_TRUE(board.isComplete()) << "a mode that stands as another does";
  EXPECT_EQ(board.report().results, swept(*now));
  AssemblyDocument less = document_;
  less.modes.pop_back();
  const ScenePtr fewer = bench_.scene(less, scene_.get());
  CheckBoard boardOfLess(fewer);
  boardOfLess.takeOver(board_);
  EXPECT_TRUE(boardOfLess.isComplete());
  EXPECT_EQ(boardOfLess.report().results, swept(*fewer));
}

TEST_F(CheckBoardTest, ARenamedStepKeepsResultsThatItsContactsExcuse) {
  DocumentPair rule;
  rule.parts = {"block", "sled"};
  DocumentContact contact;
  contact.kind = ContactKind::snap;
  contact.steps = {"push in"};
  contact.modes = {"in"};
  rule.contacts = {contact};
  document_.pairs.push_back(rule);
  const ScenePtr ruled = bench_.scene(document_, scene_.get());
  const CheckBoard known = checkedBoard(ruled);
  document_.sequences[0].steps[0].name = document_.pairs[0].contacts[0].steps[0] = "go";
  const ScenePtr now = bench_.scene(document_, ruled.get());
  CheckBoard board(now);
  board.takeOver(known);
  EXPECT_TRUE(board.isComplete());
  EXPECT_EQ(board.report().results, swept(*now));
  // Without the contact the same step is no excuse.
  document_.pairs.clear();
  CheckBoard bare(bench_.scene(document_, ruled.get()));
  bare.takeOver(known);
  EXPECT_EQ(bare.pairsKnown(), 19u) << "parked, no contact ever covered the pair";
}

TEST_F(CheckBoardTest, AnotherMotionIsCheckedAgain) {
  AssemblyDocument changed = document_;
  changed.sequences[0].steps[0].order = DocumentOrder::free;
  EXPECT_EQ(kept(changed), 10u) << "the parked ones";
  changed = document_;
  changed.modes[2].values = {{"sled way", 2.0}};
  EXPECT_EQ(kept(changed), 0u) << "every result tells of every mode";
  changed = document_;
  changed.joints[0].zones = {{0.5, {}, {}, {}}};
  changed.joints[0].zones[0].from = 0;
  changed.joints[0].zones[0].to = 1;
  changed.joints[0].through = ThreeNumbers{0, 0, 0};
  EXPECT_EQ(kept(changed), 0u);
}

TEST_F(CheckBoardTest, WhatTheRulesOfAPairSayIsAskedAgainForThatPairOnly) {
  EXPECT_EQ(kept(edits::requiredGap(document_, "rail", "sled", 0.1)), 18u);
  EXPECT_EQ(kept(edits::allowance(document_, "block", "sled", "it is pressed")), 18u);
  DocumentPair rule;
  rule.parts = {"block", "sled"};
  DocumentContact contact;
  contact.modes = {"in"};
  rule.contacts = {contact};
  document_.pairs = {rule};
  EXPECT_EQ(kept(document_), 19u) << "in mode parked, no contact covers the pair";
}

TEST_F(CheckBoardTest, ARequiredGapForAllIsAskedAgainWhereAPairHasNoneOfItsOwn) {
  const AssemblyDocument own = edits::requiredGap(document_, "rail", "sled", 0.1);
  board_ = checkedBoard(scene_ = bench_.scene(own));
  AssemblyDocument more = own;
  more.requiredGap = 0.35;
  EXPECT_EQ(kept(more), 2u);
}

TEST_F(CheckBoardTest, NothingHoldsWhenJointsModesOrStepsChange) {
  AssemblyDocument joint = document_;
  joint.joints[0].along = ThreeNumbers{-1, 0, 1e-9};
  EXPECT_EQ(kept(joint), 0u);
  AssemblyDocument mode = document_;
  mode.modes[2].values->at("sled way") = 1.5;
  EXPECT_EQ(kept(mode), 0u);
  AssemblyDocument step = document_;
  step.sequences[0].steps.insert(step.sequences[0].steps.begin(), {"half", {{"sled way", 2.0}}});
  EXPECT_EQ(kept(step), 10u) << "mode parked, of no way";
  AssemblyDocument fine = document_;
  fine.resolution = 0.005;
  EXPECT_EQ(kept(fine), 0u);
}

// Ten pairs in two ways, four of them with the post.
TEST_F(CheckBoardTest, OnlyPairsOfAPartWithAnotherMeshAreAskedAgain) {
  moveStl(bench_.folder() / "post.stl", {1, 0, 0});
  EXPECT_EQ(kept(document_), 12u);
}

TEST_F(CheckBoardTest, EverythingHoldsWhenTheSameMeshesAreWrittenByOtherPaths) {
  // As after "save as" into another folder.
  for (DocumentPart& part : document_.parts) {
    part.stages["block"] = (bench_.folder() / part.stages["block"]).string();
  }
  EXPECT_EQ(kept(document_), 20u);
}

TEST_F(CheckBoardTest, WhatIsTakenOverIsWhatACheckWouldFind) {
  const AssemblyDocument edited = edits::requiredGap(document_, "rail", "sled", 0.1);
  const ScenePtr scene = bench_.scene(edited, scene_.get());
  CheckBoard board(scene);
  board.takeOver(board_);
  const auto fresh = swept(*scene);
  for (std::size_t w = 0; w < fresh.size(); ++w) {
    for (std::size_t p = 0; p < fresh[w].pairs.size(); ++p) {
      if (!board.isKnown(w, p)) continue;
      EXPECT_EQ(board.report().results[w].pairs[p], fresh[w].pairs[p]);
    }
  }
}

TEST_F(CheckBoardTest, FindingsStayWorstFirstWhileOtherWaysAreNotKnownYet) {
  // Nothing can be proven within a budget of one node test; the pair that is nearer to what is
  // required is the worse one.
  CheckBoard board(scene_);
  const std::size_t near = pairOf(board, "sled", "rail"), far = pairOf(board, "block", "post");
  const auto put = [&](std::size_t way, std::size_t pair, double lowerMm) {
    PairResult result = board.report().results[way].pairs[pair];
    result.verdict = Verdict::unproven;
    result.gap.lowerMm = lowerMm;
    board.put({way, pair, result, {}});
  };
  put(0, near, 0.1);
  put(1, near, 0.1);
  put(0, far, 0.25);  // Its other way is not known.
  board.refresh();
  ASSERT_EQ(board.findings().size(), 2u);
  EXPECT_EQ(board.findings()[0].where.front().pair, near);
  EXPECT_EQ(board.findings()[1].where.size(), 1u);
}

TEST(CheckRun, OnlyWhatIsNotKnownIsCheckedAndEachPairArrivesOnce) {
  const Bench bench = Bench::press();
  const AssemblyDocument document = bench.document();
  const ScenePtr before = bench.scene(document);
  const ScenePtr now = bench.scene(edits::requiredGap(document, "sled", "rail", 0.1), before.get());
  CheckBoard board(now);
  board.takeOver(checkedBoard(before));
  std::vector<CheckedResult> arrived;
  bool finished = false;
  CheckRun run;
  QObject::connect(&run, &CheckRun::arrived, [&](const std::vector<CheckedResult>& results) {
    arrived.insert(arrived.end(), results.begin(), results.end());
  });
  QObject::connect(&run, &CheckRun::finished, [&] { finished = true; });
  run.start(board, 0);
  EXPECT_TRUE(run.isRunning());
  ASSERT_TRUE(waitUntil([&] { return finished; }));
  EXPECT_FALSE(run.isRunning());
  ASSERT_EQ(arrived.size(), 2u) << "the pair in both ways";
  const std::size_t pair = pairOf(board, "sled", "rail");
  const auto fresh = swept(*now);
  for (const CheckedResult& result : arrived) {
    EXPECT_EQ(result.pair, pair);
    EXPECT_EQ(result.result, fresh[result.way].pairs[pair]);
  }
  EXPECT_NE(arrived[0].way, arrived[1].way);
}

TEST(CheckRun, WhatAnEarlierRunFoundIsLookedUp) {
  const Bench bench = Bench::press();
  const ScenePtr scene = bench.scene(bench.document());
  const auto store = std::make_shared<ResultStore>();
  SweepSettings settings;
  settings.resolutionMm = scene->assembly().resolutionMm();
  const auto runOnce = [&] {
    std::vector<CheckedResult> arrived;
    bool finished = false;
    CheckRun run(store);
    QObject::connect(&run, &CheckRun::arrived, [&](const std::vector<CheckedResult>& results) {
      arrived.insert(arrived.end(), results.begin(), results.end());
    });
    QObject::connect(&run, &CheckRun::finished, [&] { finished = true; });
    run.start(CheckBoard(scene), 0);
    EXPECT_TRUE(waitUntil([&] { return finished; }));
    return arrived;
  };
  const auto fresh = swept(*scene);
  for (const CheckedResult& result : runOnce()) {
    EXPECT_EQ(result.result, fresh[result.way].pairs[result.pair]);
  }
  // A mark in one kept result shows that it is this one that comes.
  const Sequence& way = scene->ways[0];
  const PairResult& pair = fresh[0].pairs[0];
  const auto digests = store->meshDigests().of(scene->assembly(), 1);
  const PairKey key =
      keyOf({&scene->assembly(), &scene->loaded.modes, &way, &settings, pair.a, pair.b}, digests);
  const auto record = store->find(digests[pair.a.index], key.digest);
  ASSERT_TRUE(record.has_value());
  auto marked = fromRecord(*record, pair.a, pair.b, key.joints);
  marked->nodeTests = 123'456'789;
  store->keep(digests[pair.a.index], key.digest, toRecord(*marked, key.joints));
  std::size_t seen = 0;
  for (const CheckedResult& result : runOnce()) {
    if (result.way != 0 || result.pair != 0) continue;
    EXPECT_EQ(result.result.nodeTests, 123'456'789u);
    ++seen;
  }
  EXPECT_EQ(seen, 1u);
}

}  // namespace
}  // namespace swingroom
