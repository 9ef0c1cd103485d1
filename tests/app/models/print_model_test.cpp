#include "app/models/print/print_model.h"

#include <gtest/gtest.h>

#include <QAbstractItemModelTester>

#include "app/models/print/printer_words.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/support/prints.h"

namespace swingroom {
namespace {

PrintFinding printFinding(PrintWord word, PrintGrade grade, double figure,
                          std::optional<double> needed, std::vector<PartId> parts) {
  PrintFinding finding;
  finding.word = word;
  finding.grade = grade;
  finding.lower = finding.upper = figure;
  finding.needed = needed;
  finding.unit = "mm";
  finding.parts = std::move(parts);
  finding.sentence = "a clause with its figure";
  return finding;
}

class PrintModelTest : public ::testing::Test {
 protected:
  std::vector<std::string> column(int role) const {
    std::vector<std::string> texts;
    for (int row = 0; row < model_.rowCount(); ++row)
      texts.push_back(model_.index(row, 0).data(role).toString().toStdString());
    return texts;
  }
  const double leastWallMm_ = builtInProcesses().front().leastWallMm.value;
  Bench bench_ = Bench::press();
  ScenePtr scene_ = bench_.scene();
  PartId block_ = part(*scene_, "block"), sled_ = part(*scene_, "sled"),
         rail_ = part(*scene_, "rail");
  PrintModel model_;
  QAbstractItemModelTester tester_{&model_, QAbstractItemModelTester::FailureReportingMode::Fatal};
};

TEST_F(PrintModelTest, FindingsComeFirstAndHintsOfOneWordAreFoldedBehindTheirNumber) {
  const auto show = [&](PrintWord word, PrintGrade grade, double share, PartId part) {
    return printFinding(word, grade, share * leastWallMm_, leastWallMm_, {part});
  };
  model_.show(printKnown(
      scene_, {show(PrintWord::thinWall, PrintGrade::hint, 0.1, rail_),
               show(PrintWord::thinEdge, PrintGrade::hint, 0.3, block_),
               show(PrintWord::thinWall, PrintGrade::hint, 0.5, sled_),
               show(PrintWord::thinWall, PrintGrade::finding, 0.9, block_),
               show(PrintWord::thinWall, PrintGrade::finding, 0.2, sled_),
               printFinding(PrintWord::tooLarge, PrintGrade::finding, 300, 220, {sled_})}));
  EXPECT_EQ(column(Qt::DisplayRole),
            (std::vector<std::string>{"thin wall", "thin wall", "too large for the bed",
                                      "thin wall", "thin edge"}));
  EXPECT_EQ(column(PrintModel::WhereRole),
            (std::vector<std::string>{"sled", "block", "sled", "", ""}))
      << "the worst first";
  EXPECT_EQ(column(PrintModel::CountRole), (std::vector<std::string>{"", "", "", "2", "1"}));
  EXPECT_EQ(column(PrintModel::SectionRole),
            (std::vector<std::string>{"Findings", "", "", "Hints", ""}));
  model_.toggle(3);
  EXPECT_EQ(column(PrintModel::WhereRole),
            (std::vector<std::string>{"sled", "block", "sled", "", "rail", "sled", ""}));
  model_.toggle(3);
  EXPECT_EQ(model_.rowCount(), 5);
  EXPECT_EQ(model_.count(PrintGrade::finding), 3u);
  EXPECT_EQ(model_.count(PrintGrade::hint), 3u) << "folded or not";
  EXPECT_EQ(model_.bringOut(model_.rows().back()), 5) << "the thin edge, behind its line";
  model_.show(nullptr);
  EXPECT_EQ(model_.rowCount(), 0);
}

TEST_F(PrintModelTest, ASearchByNameOpensWhatItFinds) {
  model_.show(printKnown(
      scene_, {printFinding(PrintWord::thinWall, PrintGrade::finding, 0.2, 0.8, {sled_}),
               printFinding(PrintWord::thinWall, PrintGrade::hint, 0.2, 0.8, {rail_}),
               printFinding(PrintWord::openSeam, PrintGrade::hint, 1, 0.2, {block_, rail_})}));
  model_.setSearch(QStringLiteral(" RAIL "));
  EXPECT_EQ(column(PrintModel::WhereRole),
            (std::vector<std::string>{"", "rail", "", "block and rail"}));
  model_.setSearch(QStringLiteral("seam"));
  EXPECT_EQ(column(PrintModel::WhereRole), (std::vector<std::string>{"", "block and rail"}));
  model_.setSearch({});
  EXPECT_EQ(column(PrintModel::WhereRole), (std::vector<std::string>{"sled", "", ""}))
      << "folded again";
  const QString all = model_.allText();
  for (const char* name : {"thin wall: sled", "thin wall: rail", "open seam: block and rail"})
    EXPECT_TRUE(all.contains(QLatin1String(name))) << name;
}

TEST_F(PrintModelTest, TheSourceOfWhatIsNeededIsTold) {
  model_.show(printKnown(
      scene_, {printFinding(PrintWord::thinWall, PrintGrade::finding, 0.2, leastWallMm_, {sled_}),
               printFinding(PrintWord::thinWall, PrintGrade::finding, 0.2, 17.5, {rail_})}));
  EXPECT_EQ(column(PrintModel::NeededRole).front().substr(0, 8), "against ");
  const Sourced& source = builtInProcesses().front().leastWallMm;
  const std::string against =
      model_.index(1, 0).data(PrintModel::AgainstRole).toString().toStdString();
  EXPECT_NE(against.find(wordFor(source.kind)), std::string::npos) << against;
  EXPECT_NE(against.find(source.source), std::string::npos) << against;
  const std::string unknown =
      model_.index(0, 0).data(PrintModel::AgainstRole).toString().toStdString();
  EXPECT_NE(unknown.find("17.50"), std::string::npos) << unknown;
  EXPECT_EQ(unknown.find("common"), std::string::npos) << "no table has it: " << unknown;
}

TEST_F(PrintModelTest, WhatSpeaksOfLoadsBearsTheCaution) {
  PrintFinding droops = printFinding(PrintWord::droops, PrintGrade::finding, 3, 5, {sled_});
  droops.unit = "N mm";
  droops.mode = ModeId{1};
  model_.show(printKnown(scene_, {droops, printFinding(PrintWord::openSeam, PrintGrade::finding, 1,
                                                       0.2, {block_, rail_})}));
  const auto rowOf = [&](const char* word) {
    for (int row = 0; row < model_.rowCount(); ++row)
      if (model_.index(row, 0).data().toString() == QLatin1String(word)) return row;
    return -1;
  };
  const int hold = rowOf("droops"), seam = rowOf("open seam");
  ASSERT_GE(hold, 0);
  ASSERT_GE(seam, 0);
  const QString caution = model_.index(hold, 0).data(PrintModel::CautionRole).toString();
  for (const char* word :
       {"certifies nothing", "qualified laboratories", "indicative", "test real"})
    EXPECT_TRUE(caution.contains(QLatin1String(word))) << word;
  PrintFinding small = printFinding(PrintWord::smallPart, PrintGrade::hint, 3, std::nullopt, {sled_});
  model_.show(printKnown(scene_, {small}));
  model_.toggle(0);
  const QString safety = model_.index(1, 0).data(PrintModel::CautionRole).toString();
  for (const char* word : {"16 CFR 1501.4", "qualified laboratories", "indicative", "test real"})
    EXPECT_TRUE(safety.contains(QLatin1String(word))) << word;
}

TEST_F(PrintModelTest, RowsAreToldByWordAndNotByColourAlone) {
  PrintFinding droops = printFinding(PrintWord::droops, PrintGrade::finding, 3, 5, {sled_});
  droops.mode = ModeId{1};
  model_.show(printKnown(scene_, {droops, printFinding(PrintWord::openSeam, PrintGrade::finding, 1,
                                                       0.2, {block_, rail_})}));
  const int seam = 0, hold = 1;
  EXPECT_TRUE(model_.index(seam, 0).data(PrintModel::CautionRole).toString().isEmpty());
  EXPECT_TRUE(model_.index(hold, 0)
                  .data(PrintModel::WhereRole)
                  .toString()
                  .contains(QString::fromStdString(scene_->modeName(ModeId{1}))));
  const QString spoken = model_.index(hold, 0).data(Qt::AccessibleTextRole).toString();
  EXPECT_TRUE(spoken.startsWith(QStringLiteral("finding, droops"))) << "colours are never alone";
}

TEST(PrintFigure, HasAsManyDecimalsAsTellItFromWhatIsNeeded) {
  const auto figure = [](double lower, double upper, std::optional<double> needed,
                         const char* unit) {
    return printFigure(lower, upper, needed, unit)
        .replace(QChar(QChar::Nbsp), QLatin1Char(' '))
        .toStdString();
  };
  EXPECT_EQ(figure(0.42, 0.42, 0.8, "mm"), "0.42 mm");
  EXPECT_EQ(figure(0.797, 0.797, 0.8, "mm"), "0.797 mm");
  EXPECT_EQ(figure(0.412, 0.451, 0.8, "mm"), "0.41 to 0.46 mm");
  EXPECT_EQ(figure(3.26, 3.26, std::nullopt, "deg"), "3.3°");
  EXPECT_EQ(figure(36, 36, std::nullopt, "parts"), "36 parts");
  EXPECT_EQ(figure(35, 47, std::nullopt, "pairs"), "35 to 47 pairs");
  // Outwards by no more than the bracket is wide; what is not 0 does not look like it.
  EXPECT_EQ(figure(0.1093, 0.1104, std::nullopt, "N mm"), "0.109 to 0.111 N mm");
  EXPECT_EQ(figure(0.0095, 0.0095, std::nullopt, "N mm"), "0.01 N mm");
  EXPECT_EQ(figure(12.34, 12.34, std::nullopt, "N mm"), "12.3 N mm");
}

// A hinge of 0.3 mm clearance on the diameter turns while 0.3 - 2 g stays above 0 at full size; a
// bed of 220 takes 200 times the scale: g below 0.15, s below 1.1.
TEST(PrinterWords, SayTheEndsRoundedInwardsAndWhatSetsThem) {
  const PrinterWindow window =
      printerWindow({{-2, 0.3, 0, "hip still turns"}, {0, -200, 220, "hull fits the bed"}}, 0.05);
  EXPECT_EQ(
      growthWords(window).toStdString(),
      "At full size it passes with -0.10 to 0.15 mm of growth a side.\nmost, so that hip still "
      "turns");
  // At a growth of 0.05: 0.3 s > 0.1, s above 1/3, beyond what is looked at.
  EXPECT_EQ(
      scaleWords(window).toStdString(),
      "With 0.05 mm of growth a side it passes at 80.0 to 110.0 %.\nmost, so that hull fits the "
      "bed");
  EXPECT_TRUE(printerPointWords(window).contains(QStringLiteral("within")));
  const PrinterWindow none =
      printerWindow({{-2, 0.3, 0, "hip still turns"}, {1, 0, -0.2, "pin still holds"}}, 0.05);
  EXPECT_TRUE(printerPointWords(none).contains(QStringLiteral("outside")));
  EXPECT_TRUE(growthWords(none).contains(QStringLiteral("no printer")))
      << growthWords(none).toStdString();
  EXPECT_TRUE(growthWords(PrinterWindow()).isEmpty()) << "nothing is known: nothing is said";
}

}  // namespace
}  // namespace swingroom
