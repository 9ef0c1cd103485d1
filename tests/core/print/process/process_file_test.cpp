// Expectations: the file's own text, and the built-in tables where it says nothing.
#include "core/print/process/process_file.h"

#include <gtest/gtest.h>

#include <numbers>

namespace swingroom {
namespace {

PrintTables tablesOf(const std::string& text) {
  const auto tables = parsePrintTables(text, "mine.json");
  for (const Problem& problem : tables.problems()) ADD_FAILURE() << toText(problem);
  return tables ? *tables : PrintTables{};
}

std::vector<std::string> problemsOf(const std::string& text) {
  std::vector<std::string> told;
  const auto tables = parsePrintTables(text, "mine.json");
  for (const Problem& problem : tables.problems()) {
    told.push_back(toText(problem));
  }
  return told;
}

const char* const kMine = R"({
  "swingroomPrint": 1,
  "shop": {"owner": ["me", 2]},
  "processes": [
    {"name": "Filament, 0.4 mm Nozzle", "holeShrinkMm": 0.21, "bedMm": [180, 180, 180]},
    {"name": "big printer", "from": "filament, 0.6 mm nozzle", "material": "my PLA",
     "overhangDeg": 50, "bedMm": [400, 400, 500.5], "colourOfFrame": "black",
     "leastWallMm": {"value": 1.3, "kind": "published", "source": "its maker"}}
  ],
  "materials": [{"name": "my PLA", "from": "PLA", "densityGPerCm3": 1.31}]
})";

TEST(PrintTables, AnEntryTakesTheBuiltInOnesPlaceAndKeepsWhatItDoesNotSay) {
  const PrintTables tables = tablesOf(kMine);
  ASSERT_EQ(tables.processes.size(), builtInProcesses().size() + 1);
  const PrintProcess& first = tables.processes[0];
  EXPECT_EQ(first.holeShrinkMm, (Sourced{0.21, FigureSource::measured, ""}));
  EXPECT_EQ(first.bedMm, (std::array<double, 3>{180, 180, 180}));
  EXPECT_EQ(first.leastWallMm, builtInProcesses()[0].leastWallMm);
  const PrintProcess& big = tables.processes.back();
  EXPECT_EQ(big.layerMm, builtInProcesses()[2].layerMm);
  EXPECT_EQ(big.leastWallMm, (Sourced{1.3, FigureSource::published, "its maker"}));
  EXPECT_DOUBLE_EQ(big.overhangRad.value, 50 * std::numbers::pi / 180);
  ASSERT_TRUE(findMaterial(tables.materials, "my PLA, red"));
  EXPECT_EQ(findMaterial(tables.materials, "my PLA, red")->densityGPerCm3.value, 1.31);
}

TEST(PrintTables, WhatIsNotKnownIsToldAndWrittenAgain) {
  const PrintTables tables = tablesOf(kMine);
  ASSERT_EQ(tables.notes.size(), 2u);
  EXPECT_EQ(tables.notes[0].where, "mine.json#");
  EXPECT_EQ(tables.notes[1].where, "mine.json#/processes/1");
  const std::string text = toJson(tables);
  EXPECT_NE(text.find("\"colourOfFrame\": \"black\""), std::string::npos) << text;
  EXPECT_NE(text.find("\"shop\""), std::string::npos) << text;
}

TEST(PrintTables, WrittenIsOnlyWhatDiffersAndItReadsBackTheSame) {
  const PrintTables tables = tablesOf(kMine);
  const std::string text = toJson(tables);
  EXPECT_EQ(text.find("PETG"), std::string::npos) << text;
  EXPECT_EQ(text.find("layerMm"), std::string::npos) << text;
  EXPECT_NE(text.find("\"overhangDeg\": 50,"), std::string::npos) << text;
  PrintTables again = tablesOf(text);
  again.notes = tables.notes;
  EXPECT_EQ(again, tables);
  EXPECT_EQ(toJson(again), text);
  EXPECT_EQ(toJson(builtInTables()),
            "{\n  \"swingroomPrint\": 1,\n  \"processes\": [],\n  \"materials\": []\n}\n");
}

TEST(PrintTables, EveryFigureGoesThroughTheFile) {
  PrintTables tables = builtInTables();
  PrintProcess mine = tables.processes[3];
  mine.name = "mine";
  double step = 0;
  for (Sourced PrintProcess::*figure :
       {&PrintProcess::spotMm, &PrintProcess::layerMm, &PrintProcess::leastWallMm,
        &PrintProcess::leastFreeWallMm, &PrintProcess::leastPinMm, &PrintProcess::leastJointPinMm,
        &PrintProcess::leastHoleMm, &PrintProcess::leastGapMm, &PrintProcess::leastPinClearanceMm,
        &PrintProcess::mostPinClearanceMm, &PrintProcess::firstLayerMm,
        &PrintProcess::growthOutsideMm, &PrintProcess::growthInsideMm, &PrintProcess::holeShrinkMm,
        &PrintProcess::scatterMm, &PrintProcess::bridgeMm, &PrintProcess::escapeHoleMm,
        &PrintProcess::infill, &PrintProcess::shellMm}) {
    mine.*figure = {0.05 + (step += 0.01), FigureSource::measured, "of today"};
  }
  mine.strandMm = 2.85;
  tables.processes.push_back(mine);
  Material soft = tables.materials[0];
  soft.name = "Gum";
  soft.soft = true;
  soft.poisson.value = 0.49;
  soft.modulusMPa.value = 12;
  soft.strainOnce.value = 0.9;
  soft.strainOften.value = 0.8;
  soft.frictionLow.value = 0.7;
  soft.frictionHigh.value = 0.95;
  tables.materials.push_back(soft);
  EXPECT_EQ(tablesOf(toJson(tables)), tables);
}

TEST(PrintTables, EachMistakeHasItsPlaceAndAllAreTold) {
  const auto told = problemsOf(R"({"swingroomPrint": 1, "processes": [
    {"name": "a", "from": "no such"},
    {"name": "resin, 0.05 mm layers", "leastWallMm": "thin", "bedMm": [1, 2], "method": "clay",
     "layerMm": 500, "spotMm": {"kind": "measured"}, "leastHoleMm": {"value": 1, "kind": "guess"}},
    {"from": "a"},
    {"name": "new", "layerMm": 0.2},
    {"name": "powder, sintered", "material": "Glass"},
    {"name": "A"}, 7]})");
  const std::vector<std::string> expected = {
      "mine.json#/processes/0/from: is \"no such\", which is not known (name a built-in one, or "
      "one that stands before it in the file)",
      "mine.json#/processes/1/spotMm: has no \"value\"",
      "mine.json#/processes/1/layerMm: is 500, not from 0.0001 to 50",
      "mine.json#/processes/1/leastWallMm: is no number",
      "mine.json#/processes/1/leastHoleMm/kind: is \"guess\" (published, common practice or "
      "measured)",
      "mine.json#/processes/1/method: is \"clay\" (filament, resin or powder)",
      "mine.json#/processes/1/bedMm: is no list of width, depth and height above 0 and up to 5000",
      "mine.json#/processes/2: has no \"name\"",
      "mine.json#/processes/5/name: is \"A\", as another entry's (rename one)",
      "mine.json#/processes/6: is no JSON object",
      "mine.json#/processes/4/material: is \"Glass\", which is not known (add it to "
      "\"materials\")"};
  std::vector<std::string> rest;
  for (const std::string& problem : told) {
    if (problem.find("/processes/3: is new and does not say all: it lacks spotMm, leastWallMm") ==
        std::string::npos) {
      rest.push_back(problem);
    }
  }
  EXPECT_EQ(rest, expected);
  EXPECT_EQ(told.size(), expected.size() + 1);
}

TEST(PrintTables, WhatIsNoTableSaysWhere) {
  EXPECT_EQ(problemsOf("{\"swingroomPrint\": 1,\n  x}")[0],
            "mine.json:2:3: is no JSON from here on (see resources/print.schema.json)");
  EXPECT_EQ(problemsOf("[]")[0], "mine.json#: is no JSON object (see resources/print.schema.json)");
  EXPECT_EQ(problemsOf("{}").size(), 1u);
  EXPECT_EQ(problemsOf("{\"swingroomPrint\": 2}").size(), 1u);
  EXPECT_EQ(problemsOf("{\"swingroomPrint\": 1, \"swingroomPrint\": 1}")[0],
            "mine.json: has the key \"swingroomPrint\" twice in one object (keep one of them)");
  EXPECT_EQ(problemsOf(std::string(100000, '[')).size(), 1u);
  EXPECT_EQ(problemsOf("{\"swingroomPrint\": 1e999}").size(), 1u);
  EXPECT_EQ(readPrintTables("/no/such/table.json").problems()[0].what, "is not there");
  EXPECT_EQ(readPrintTables("/").problems()[0].what, "is no file");
}

TEST(PrintTables, FiguresThatContradictEachOtherAreTold) {
  EXPECT_EQ(problemsOf(R"({"swingroomPrint": 1, "processes": [
    {"name": "powder, sintered", "leastPinClearanceMm": 1.5}],
    "materials": [{"name": "PLA", "frictionLow": 0.6}]})"),
            (std::vector<std::string>{
                "mine.json#/materials/0: has a frictionLow of 0.6 above its frictionHigh of 0.5 "
                "(give both)",
                "mine.json#/processes/0: has a leastPinClearanceMm of 1.5 above its "
                "mostPinClearanceMm of 1 (give both)"}));
}

}  // namespace
}  // namespace swingroom
