// What is expected: a file that is read again says the same, and what the docstrings promise.
#include "core/print/process/table_edits.h"

#include <gtest/gtest.h>

namespace swingroom {
namespace {

PrintTables shopTables() {
  const auto read = parsePrintTables(R"({
    "swingroomPrint": 1,
    "processes": [{"name": "big printer", "from": "filament, 0.6 mm nozzle", "material": "my PLA",
                   "colourOfFrame": "black"}],
    "materials": [{"name": "my PLA", "from": "PLA", "densityGPerCm3": 1.31, "shelf": 4}]})",
                                     "mine.json");
  EXPECT_TRUE(read);
  return *read;
}

/// But for the notes of the reading.
void expectSameWhenReadAgain(PrintTables tables) {
  auto again = parsePrintTables(toJson(tables), "again.json");
  ASSERT_TRUE(again) << toText(again.problems().front());
  again->notes.clear();
  tables.notes.clear();
  EXPECT_TRUE(*again == tables) << toJson(tables);
}

TEST(TableEdits, AnotherNameTakesKeptKeysAndUsesAlong) {
  PrintTables tables = shopTables();
  const std::size_t process = tables.processes.size() - 1, material = tables.materials.size() - 1;
  EXPECT_FALSE(tables::renameProcess(tables, process, "shop printer"));
  EXPECT_FALSE(tables::renameMaterial(tables, material, "PLA of the shop"));
  EXPECT_EQ(tables.processes[process].material, "PLA of the shop");
  const std::string text = toJson(tables);
  EXPECT_NE(text.find("\"colourOfFrame\": \"black\""), std::string::npos) << text;
  EXPECT_NE(text.find("\"shelf\": 4"), std::string::npos) << text;
  expectSameWhenReadAgain(tables);
}

TEST(TableEdits, ATakenOrEmptyNameIsRefusedAndChangesNothing) {
  PrintTables tables = shopTables();
  const PrintTables before = tables;
  const std::size_t last = tables.processes.size() - 1;
  for (const char* name : {"", " - ", "Powder; SINTERED"}) {
    EXPECT_TRUE(tables::renameProcess(tables, last, name)) << name;
  }
  EXPECT_TRUE(tables == before);
  EXPECT_FALSE(tables::renameProcess(tables, last, "Big Printer")) << "its own, written otherwise";
  EXPECT_THROW(tables::renameProcess(tables, 0, "x"), std::invalid_argument);
}

TEST(TableEdits, WhatIsTakenOutTakesItsKeysAlongAndAMaterialInUseStays) {
  PrintTables tables = shopTables();
  const std::size_t material = tables.materials.size() - 1;
  const auto refused = tables::removeMaterial(tables, material);
  ASSERT_TRUE(refused);
  EXPECT_EQ(refused->what, "is what big printer prints with");
  EXPECT_FALSE(tables::removeProcess(tables, tables.processes.size() - 1));
  EXPECT_FALSE(tables::removeMaterial(tables, material));
  tables.notes.clear();
  EXPECT_TRUE(tables == builtInTables());
  EXPECT_THROW(tables::removeProcess(tables, 0), std::invalid_argument);
}

TEST(TableEdits, KeepingTakesThePlaceOfTheSameNameElseStandsBehindAll) {
  PrintTables tables = shopTables();
  PrintProcess changed = builtInProcesses()[1];
  changed.holeShrinkMm = {0.2, FigureSource::measured, ""};
  tables::keep(tables, changed);
  EXPECT_EQ(tables.processes.size(), shopTables().processes.size());
  EXPECT_EQ(tables.processes[1], changed);
  changed.name = tables::freeProcessName(tables, changed.name);
  EXPECT_EQ(changed.name, "filament, 0.25 mm nozzle (2)");
  tables::keep(tables, changed);
  EXPECT_EQ(tables.processes.back(), changed);
  // "PLA plus" begins as "PLA", which it must not take the place of.
  Material plus = builtInMaterials()[0];
  plus.name = "PLA plus";
  tables::keep(tables, plus);
  EXPECT_EQ(tables.materials[0], builtInMaterials()[0]);
  EXPECT_EQ(tables.materials.back(), plus);
  expectSameWhenReadAgain(tables);
}

}  // namespace
}  // namespace swingroom
