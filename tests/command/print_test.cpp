// swingroom check --print, testpiece and loads, as a maker runs them.
#include <gtest/gtest.h>

#include <filesystem>

#include "tests/command/program.h"

namespace swingroom::command {
namespace {

const std::string kPrintedTug = sample("harbour_tug/harbour_tug.swing.json").string();

TEST(PrintCommand, WithoutItNothingIsSaidOfThePrint) {
  const auto ran = run({"check", kPrintedTug, "--no-cache", "--no-history"});
  EXPECT_EQ(ran.exitCode, 0);
  EXPECT_NE(ran.out.find("as printed: not checked"), std::string::npos);
}

// The rule of this program: the caution stands where safety is spoken of.
TEST(PrintCommand, CautionsStandBesideWhatTheyAreOf) {
  TemporaryFolder folder;
  const auto ran = run({"check", kPrintedTug, "--print", "--no-history", "--report", (folder / "out").string()});
  EXPECT_EQ(ran.exitCode, 0) << ran.out;
  EXPECT_NE(ran.out.find("small part"), std::string::npos);
  EXPECT_NE(ran.out.find("qualified laboratories"), std::string::npos);
  const std::string page = readText(folder / "out" / "report.html");
  EXPECT_EQ(page.find("not checked yet"), std::string::npos) << "it has been checked";
  EXPECT_NE(readText(folder / "out" / "report.json").find("qualified laboratories"), std::string::npos);
}

TEST(PrintCommand, UnknownProcessIsANoteAndStandsInForTheTableS) {
  TemporaryFolder folder;
  std::string text = readText(sample("hatch_box/hatch_box.swing.json"));
  std::filesystem::copy(sample("hatch_box"), folder / "box", std::filesystem::copy_options::recursive);
  writeText(folder / "tables.json", R"({"swingroomPrint": 1, "processes": [], "materials": []})");
  const auto key = text.find("\"process\"");
  if (key == std::string::npos) {
    text.insert(text.find("\"name\""), "\"process\": \"sand casting\", ");
  } else {
    const auto begin = text.find('"', text.find(':', key)), end = text.find('"', begin + 1);
    text.replace(begin, end - begin + 1, "\"sand casting\"");
  }
  writeText(folder / "box" / "hatch_box.swing.json", text);
  const auto ran = run({"check", (folder / "box" / "hatch_box.swing.json").string(), "--print", "--no-cache",
                               "--no-history", "--print-tables", (folder / "tables.json").string()});
  EXPECT_NE(ran.exitCode, 2) << ran.err;
  EXPECT_NE(ran.err.find("the process \"sand casting\" is not in the table"), std::string::npos) << ran.err;
}

TEST(PrintCommand, TablesThatCannotBeReadEndIt) {
  TemporaryFolder folder;
  const auto file = folder / "tables.json";
  writeText(file, R"({"swingroomPrint": 1, "processes": [{"name": "powder, sintered", "spotMm": -1}]})");
  const auto ran = run({"check", kPrintedTug, "--print", "--print-tables", file.string(), "--no-history"});
  EXPECT_EQ(ran.exitCode, 2);
  EXPECT_NE(ran.err.find("#/processes/0/spotMm"), std::string::npos) << ran.err;
}

TEST(TestPieceCommand, ThePieceIsAsStatedByItsOwnCheck) {
  TemporaryFolder folder;
  const auto piece = folder / "piece";
  const auto made = run({"testpiece", "-o", piece.string()});
  ASSERT_EQ(made.exitCode, 0) << made.err;
  // Each pair with the plate has half its stated clearance as required gap.
  const auto checked = run({"check", (piece / "test_piece.swing.json").string(), "--no-cache", "--no-history"});
  EXPECT_EQ(checked.exitCode, 0) << checked.out;
}

TEST(TestPieceCommand, WhatWasFeltIsKeptAndUsed) {
  TemporaryFolder folder;
  const auto tables = folder / "mine.json";
  // Stuck at 0.4 and free at 0.5, pin and hole by callipers: 0.1 thicker is 0.05 a side; 5.4 as 5.3.
  const auto kept = run({"testpiece", "--pin-turns-from", "0.5", "--pin-across", "5.1", "--hole", "0.4",
                                "5.3", "--print-tables", tables.string()});
  ASSERT_EQ(kept.exitCode, 0) << kept.err;
  EXPECT_NE(kept.out.find("between 0.400 and 0.500 mm"), std::string::npos) << kept.out;
  EXPECT_NE(kept.out.find("growth outside a side: 0.050 mm"), std::string::npos) << kept.out;
  EXPECT_NE(kept.out.find("hole shrink on the diameter: 0.100 mm"), std::string::npos) << kept.out;
  // The tug's hinges of 0.46 bind on a printer that needs 0.5.
  const auto checked = run({"check", kPrintedTug, "--print", "--print-tables", tables.string(), "--no-history"});
  EXPECT_EQ(checked.exitCode, 1);
  EXPECT_NE(checked.out.find("tight fit"), std::string::npos) << checked.out;
}

TEST(TestPieceCommand, SaysWhatItLacks) {
  EXPECT_EQ(run({"testpiece"}).exitCode, 2);
  const auto ran = run({"testpiece", "-o", "/tmp", "--process", "casting"});
  EXPECT_EQ(ran.exitCode, 2);
  EXPECT_NE(ran.err.find("there is no process \"casting\""), std::string::npos) << ran.err;
}

// Counted in make_assembly.py: 40 parts, 12 of them pins of joints; nine kinds of material and colour.
TEST(LoadsCommand, WritesAFileAColour) {
  TemporaryFolder folder;
  const auto ran = run({"loads", kPrintedTug, "-o", (folder / "out").string()});
  ASSERT_EQ(ran.exitCode, 0) << ran.err;
  EXPECT_NE(ran.out.find("40 pieces on 9 loads"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("12 of them pins of joints"), std::string::npos) << ran.out;
  std::size_t files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder / "out")) {
    EXPECT_EQ(entry.path().extension(), ".3mf");
    ++files;
  }
  EXPECT_EQ(files, 9u);
}

}  // namespace
}  // namespace swingroom::command
