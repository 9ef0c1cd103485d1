// What of two checks is told, and what is not. Brackets are written here; what they prove follows
// from them: [a, b] and [c, d] are told apart if b < c or d < a.
#include "core/history/comparison.h"

#include <gtest/gtest.h>

#include "core/history/comparison_text.h"
#include "core/history/read_report.h"
#include "core/report/json_report.h"
#include "tests/core/report/report_fixture.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

PairFigure gapped(const std::string& a, const std::string& b, Verdict verdict, double lowerMm,
                  std::optional<double> upperMm) {
  PairFigure figure;
  figure.a = a, figure.b = b, figure.verdict = verdict;
  figure.requiredMm = 0.3, figure.lowerMm = lowerMm, figure.upperMm = upperMm;
  if (upperMm) figure.instant = 0.25, figure.step = "head up", figure.stepNumber = 4;
  return figure;
}

PairFigure deep(const std::string& a, const std::string& b, double depthMm) {
  PairFigure figure = gapped(a, b, Verdict::clash, 0, 0);
  figure.depthMm = depthMm;
  return figure;
}

CheckFigures checkOf(std::vector<PairFigure> pairs) {
  return {"figure", 0.01, {{"stand up", "tug", "deckhand", std::move(pairs)}}};
}

Change changeOfPair(const PairFigure& before, const PairFigure& now) {
  const Comparison comparison = compare(checkOf({before}), checkOf({now}));
  if (!comparison.changes.empty()) return comparison.changes.front().change;
  return comparison.same == 1 ? Change::same : Change::notToldApart;
}

TEST(Comparison, BracketsThatOverlapAreNotToldApart) {
  const PairFigure was = gapped("visor", "collar", Verdict::clear, 0.45, 0.46);
  EXPECT_EQ(changeOfPair(was, gapped("visor", "collar", Verdict::clear, 0.44, 0.45)),
            Change::notToldApart)
      << "they meet in one value";
  EXPECT_EQ(changeOfPair(was, gapped("visor", "collar", Verdict::clear, 0.43, 0.449)),
            Change::shrank);
  EXPECT_EQ(changeOfPair(was, gapped("visor", "collar", Verdict::clear, 0.461, 0.47)),
            Change::grew);
  EXPECT_EQ(changeOfPair(was, was), Change::same);
}

TEST(Comparison, FarPairsAreBeyondWhatMattersAndNothingElseIsSaidOfThem) {
  const PairFigure far = gapped("visor", "collar", Verdict::clear, 1.8, std::nullopt);
  EXPECT_EQ(changeOfPair(far, gapped("visor", "collar", Verdict::clear, 1.9, std::nullopt)),
            Change::same);
  EXPECT_EQ(changeOfPair(far, gapped("visor", "collar", Verdict::clear, 1.0, 1.01)),
            Change::shrank);
  EXPECT_EQ(changeOfPair(gapped("visor", "collar", Verdict::clear, 1.0, 1.01), far), Change::grew);
  EXPECT_EQ(changeOfPair(gapped("visor", "collar", Verdict::clear, 1.79, 1.8), far),
            Change::notToldApart);
}

TEST(Comparison, VerdictsThatTurnAreFindingsSolvedOnesWorseOrBetter) {
  const PairFigure clear = gapped("a", "b", Verdict::clear, 0.5, 0.51);
  const PairFigure tight = gapped("a", "b", Verdict::tight, 0.2, 0.21);
  const PairFigure allowed = gapped("a", "b", Verdict::allowed, 0.2, 0.21);
  EXPECT_EQ(changeOfPair(clear, tight), Change::newFinding);
  EXPECT_EQ(changeOfPair(tight, clear), Change::solved);
  EXPECT_EQ(changeOfPair(tight, deep("a", "b", 0.5)), Change::worse);
  EXPECT_EQ(changeOfPair(deep("a", "b", 0.5), tight), Change::better);
  EXPECT_EQ(changeOfPair(clear, allowed), Change::passesOtherwise);
  EXPECT_EQ(changeOfPair(tight, gapped("a", "b", Verdict::tight, 0.1, 0.11)), Change::tighter);
  EXPECT_EQ(changeOfPair(tight, gapped("a", "b", Verdict::tight, 0.25, 0.26)), Change::wider);
}

// README.md: depths are right to 0.02 mm, each.
TEST(Comparison, DepthsAreToldApartOnlyBeyondWhatBothAreRightTo) {
  EXPECT_EQ(changeOfPair(deep("a", "b", 0.50), deep("a", "b", 0.53)), Change::notToldApart);
  EXPECT_EQ(changeOfPair(deep("a", "b", 0.50), deep("a", "b", 0.55)), Change::deeper);
  EXPECT_EQ(changeOfPair(deep("a", "b", 0.50), deep("a", "b", 0.45)), Change::shallower);
  EXPECT_EQ(changeOfPair(deep("a", "b", 0), deep("a", "b", 0.45)), Change::notToldApart)
      << "0: not known";
}

TEST(Comparison, WorseIsWhatTurnedForTheWorseAndNoGapThatIsStillWide) {
  const auto worse = [](const PairFigure& before, const PairFigure& now) {
    return compare(checkOf({before}), checkOf({now})).anyWorse();
  };
  const PairFigure wide = gapped("a", "b", Verdict::clear, 1.0, 1.01);
  EXPECT_FALSE(worse(wide, gapped("a", "b", Verdict::clear, 0.5, 0.51)));
  EXPECT_TRUE(worse(wide, gapped("a", "b", Verdict::tight, 0.1, 0.11)));
  EXPECT_FALSE(worse(gapped("a", "b", Verdict::tight, 0.1, 0.11), wide));
  EXPECT_TRUE(worse(gapped("a", "b", Verdict::tight, 0.1, 0.11),
                    gapped("a", "b", Verdict::tight, 0, 0.01)));
}

TEST(Comparison, WorstStandsFirst) {
  const CheckFigures before = checkOf(
      {gapped("a", "b", Verdict::clear, 0.5, 0.51), gapped("a", "c", Verdict::tight, 0.2, 0.21),
       gapped("a", "d", Verdict::clear, 0.5, 0.51), gapped("a", "e", Verdict::clear, 1, 1.01)});
  const CheckFigures now = checkOf(
      {gapped("a", "b", Verdict::tight, 0.2, 0.21), gapped("a", "c", Verdict::clear, 0.5, 0.51),
       deep("a", "d", 0.4), gapped("a", "e", Verdict::clear, 0.4, 0.41)});
  const Comparison comparison = compare(before, now);
  ASSERT_EQ(comparison.changes.size(), 4u);
  EXPECT_EQ(comparison.changes[0].b, "d");
  EXPECT_EQ(comparison.changes[1].b, "b");
  EXPECT_EQ(comparison.changes[2].change, Change::shrank);
  EXPECT_EQ(comparison.changes[3].change, Change::solved);
}

TEST(Comparison, APartOfTheSameFiguresWithAllOthersIsTheSameUnderAnotherName) {
  const auto others = [](const std::string& x) {
    return std::vector{gapped(x, "hull", Verdict::clear, 0.5, 0.51),
                       gapped(x, "mast", Verdict::clear, 0.7, 0.71),
                       gapped("hull", "mast", Verdict::clear, 0.9, 0.91)};
  };
  const Comparison renamed = compare(checkOf(others("visor")), checkOf(others("brow")));
  ASSERT_EQ(renamed.renamed.size(), 1u);
  EXPECT_EQ(renamed.renamed[0], (RenamedPart{"visor", "brow"}));
  EXPECT_EQ(renamed.same, 3u);
  auto moved = others("brow");
  moved[0] = gapped("brow", "hull", Verdict::clear, 0.4, 0.41);
  const Comparison other = compare(checkOf(others("visor")), checkOf(moved));
  EXPECT_TRUE(other.renamed.empty());
  EXPECT_EQ(other.partsOnlyBefore, std::vector<std::string>{"visor"});
  EXPECT_EQ(other.partsOnlyNow, std::vector<std::string>{"brow"});
  EXPECT_EQ(other.pairsOnlyBefore, 2u);
  EXPECT_EQ(other.pairsOnlyNow, 2u);
}

TEST(Comparison, FindingsOfPartsThatCameOrWentAreNewOrSolved) {
  const CheckFigures with = checkOf(
      {gapped("a", "b", Verdict::clear, 1, 1.01), gapped("a", "c", Verdict::tight, 0.1, 0.11)});
  const CheckFigures without = checkOf({gapped("a", "b", Verdict::clear, 1, 1.01)});
  const Comparison came = compare(without, with), went = compare(with, without);
  ASSERT_EQ(came.changes.size(), 1u);
  EXPECT_EQ(came.changes[0].change, Change::newFinding);
  EXPECT_FALSE(came.changes[0].before.has_value());
  EXPECT_TRUE(came.anyWorse());
  ASSERT_EQ(went.changes.size(), 1u);
  EXPECT_EQ(went.changes[0].change, Change::solved);
  EXPECT_FALSE(went.anyWorse());
}

TEST(Comparison, OrderOfPartsInAPairAndOtherWaysDoNotMatter) {
  CheckFigures before = checkOf({gapped("a", "b", Verdict::clear, 1, 1.01)});
  CheckFigures now = checkOf({gapped("b", "a", Verdict::clear, 1, 1.01)});
  now.ways.push_back(
      {"at the oars", "at the oars", "at the oars", {gapped("a", "b", Verdict::tight, 0, 0.01)}});
  const Comparison comparison = compare(before, now);
  EXPECT_EQ(comparison.same, 1u);
  EXPECT_TRUE(comparison.changes.empty()) << "a way that was not there says nothing";
  EXPECT_EQ(comparison.waysOnlyNow, std::vector<std::string>{"at the oars"});
}

TEST(Comparison, WorstOfEachPairKeepsThePairsOrder) {
  PairChange deepest{Change::deeper, "one", "a", "b", {}, {}},
      other{Change::shrank, "one", "c", "d", {}, {}};
  PairChange again{Change::grew, "two", "b", "a", {}, {}};
  const auto worst = worstOfEachPair({deepest, other, again});
  ASSERT_EQ(worst.size(), 2u);
  EXPECT_EQ(worst[0].change, Change::deeper);
  EXPECT_EQ(worst[1].a, "c");
}

/// A box over another, at `gapMm`, which a slide takes 1 mm aside.
Mechanism twoBoxes(double gapMm) {
  Mechanism mechanism;
  mechanism.addPart("below", shapes::box({0, 0, 0}, {10, 10, 10}));
  const PartId above =
      mechanism.addPart("above", shapes::box({0, 0, 10 + gapMm}, {10, 10, 20 + gapMm}));
  mechanism.addStep(mechanism.addSlide(above, std::nullopt, Vector3d::UnitX()), {1, 0, 0});
  return mechanism;
}

// The reader against the writer: each is the other's judge, and the closed form is of both.
TEST(ReadReport, FiguresReadBackAreThoseOfTheCheck) {
  for (const double gapMm : {0.2, 0.5, 4.0, -0.7}) {
    const ReportCase made(twoBoxes(gapMm));
    auto read = parseReport(toJson(made.report), "report.json");
    ASSERT_TRUE(read.ok()) << toText(read.problems().front());
    CheckFigures expected = figuresOf(made.report);
    for (WayFigures& way : expected.ways) {
      for (PairFigure& pair : way.pairs) pair.stepNumber = 0;  // The report does not have it.
    }
    EXPECT_EQ(*read, expected) << gapMm;
    const PairFigure& pair = read->ways[0].pairs[0];
    if (gapMm == 0.5) {
      EXPECT_LE(pair.lowerMm, 0.5);
      EXPECT_GE(*pair.upperMm, 0.5);
    }
    if (gapMm < 0) EXPECT_NEAR(pair.depthMm, 0.7, 0.02);
  }
}

TEST(ReadReport, WhatIsNoReportIsToldWithItsPlace) {
  const ReportCase made(twoBoxes(0.5));
  const std::string good = toJson(made.report);
  const auto whereAfter = [&](const std::string& from, const std::string& to) {
    std::string text = good;
    text.replace(text.find(from), from.size(), to);
    const auto read = parseReport(text, "old.json");
    return read.ok() ? std::string("taken") : read.problems().front().where;
  };
  EXPECT_EQ(whereAfter("\"swingroomReport\": 1", "\"swingroomReport\": 9"),
            "old.json#/swingroomReport");
  EXPECT_EQ(whereAfter("\"verdict\": \"clear\"", "\"verdict\": \"fine\""),
            "old.json#/sequences/0/pairs/0/verdict");
  EXPECT_EQ(whereAfter("\"lower\": 0", "\"lower\": -0"), "old.json#/sequences/0/pairs/0/gap/lower");
  EXPECT_EQ(parseReport(good.substr(0, good.size() / 2), "old.json").problems().front().where,
            "old.json");
  EXPECT_EQ(parseReport("{}", "old.json").problems().front().what, "is no JSON report of a check");
  EXPECT_EQ(parseReport("[]", "old.json").problems().front().what, "is no JSON report of a check");
  EXPECT_FALSE(readReport("/nowhere/old.json").ok());
}

}  // namespace
}  // namespace swingroom
