#include "app/command/testpiece_command.h"

#include <CLI/CLI.hpp>
#include <cmath>
#include <cstdio>
#include <memory>
#include <string>

#include "app/command/check_print.h"
#include "app/command/say.h"
#include "core/measure/report_folder.h"
#include "core/measure/test_piece_files.h"
#include "core/measure/user_tables.h"
#include "core/print/process/readings.h"
#include "core/print/process/table_edits.h"

namespace swingroom {
namespace {

struct TestPieceWords {
  std::string folder, process, tables, name;
  std::optional<double> turnsFrom, flopsFrom, slidesFrom, pinMm, tongueMm;
  std::vector<double> hole, slot;  ///< Clearance as stated, size as measured.

  bool hasReadings() const {
    return turnsFrom || flopsFrom || slidesFrom || pinMm || tongueMm || !hole.empty() || !slot.empty();
  }
};

/// Every place of the piece, by the first that was free and the first that flopped.
std::vector<FeltPlace> feltOf(const TestPieceWish& wish, const std::optional<double>& freeFrom,
                              const std::optional<double>& flopsFrom) {
  std::vector<FeltPlace> felt;
  if (!freeFrom && !flopsFrom) return felt;
  for (const double clearance : wish.clearancesMm) {
    FeltFit fit = FeltFit::free;
    if (freeFrom && clearance < *freeFrom - 1e-9) fit = FeltFit::stuck;
    if (flopsFrom && clearance > *flopsFrom - 1e-9) fit = FeltFit::flops;
    felt.push_back({clearance, fit});
  }
  return felt;
}

TestReadings readingsOf(const TestPieceWords& words, const TestPieceWish& wish) {
  TestReadings readings;
  readings.pins = feltOf(wish, words.turnsFrom, words.flopsFrom);
  readings.tongues = feltOf(wish, words.slidesFrom, std::nullopt);
  readings.pinMm = words.pinMm;
  readings.tongueMm = words.tongueMm;
  if (words.hole.size() == 2) readings.hole = {words.hole[0], words.hole[1]};
  if (words.slot.size() == 2) readings.slot = {words.slot[0], words.slot[1]};
  return readings;
}

void sayFigures(const ReadProcess& read) {
  for (const ReadFigure& figure : read.figures) std::printf("  %s\n", toText(figure).c_str());
  for (const std::string& note : read.notes) std::printf("  %s\n", note.c_str());
}

int takeReadings(const TestPieceWords& words, const PrintProcess& process, PrintTables own) {
  const TestPieceWish wish = testPieceWish(process);
  Outcome<ReadProcess> read = readingsApplied(process, wish, readingsOf(words, wish));
  if (!read) return fail(read.problems());
  if (!words.name.empty()) read->process.name = words.name;
  const std::filesystem::path named = words.tables;
  tables::keep(own, read->process);
  std::error_code failure;  // Told by the writing.
  if (named.has_parent_path()) std::filesystem::create_directories(named.parent_path(), failure);
  if (auto problem = named.empty() ? saveUserTables(own) : writeFile(named, toJson(own))) return fail({*problem});
  std::printf("%s, as measured:\n", read->process.name.c_str());
  sayFigures(*read);
  std::printf("Kept in %s.\n", (named.empty() ? *userTablesFile() : named).string().c_str());
  return 0;
}

int makePiece(const TestPieceWords& words, const PrintProcess& process) {
  const TestPiece piece = makeTestPiece(testPieceWish(process));
  const auto files = writeTestPiece(words.folder, piece, process);
  if (!files) return fail(files.problems());
  std::printf("Test piece for %s: %zu holes and slots, clearances from %.2f to %.2f mm, on the diameter of the pin "
              "and the thickness of the tongue.\n",
              process.name.c_str(), piece.places.size(), piece.places.front().clearanceMm,
              piece.places.back().clearanceMm);
  for (const auto& file : *files) std::printf("  %s\n", file.string().c_str());
  return 0;
}

int runTestPiece(const TestPieceWords& words) {
  const std::filesystem::path named = words.tables;
  std::error_code none;
  // A file that is to be begun is not there yet.
  const bool begun = words.tables.empty() || std::filesystem::exists(named, none) || !words.hasReadings();
  Outcome<PrintTables> tables = begun ? tablesFor(words.tables) : builtInTables();
  if (!tables) return fail(tables.problems());
  const PrintProcess* process =
      words.process.empty() ? &tables->processes.front() : findProcess(tables->processes, words.process);
  if (!process) {
    std::string known;
    for (const PrintProcess& one : tables->processes) known += (known.empty() ? "" : "; ") + one.name;
    return fail({{"--process", "there is no process \"" + words.process + "\"", "there are: " + known}});
  }
  if (words.folder.empty() && !words.hasReadings()) {
    return fail({{"testpiece", "says neither where to write a piece nor what was felt at one", "swingroom testpiece --help"}});
  }
  if (!words.folder.empty()) {
    const int made = makePiece(words, *process);
    if (made != 0 || !words.hasReadings()) return made;
  }
  return takeReadings(words, *process, *tables);
}

}  // namespace

void addTestPieceCommand(CLI::App& app, int& exitCode) {
  auto words = std::make_shared<TestPieceWords>();
  CLI::App* piece = app.add_subcommand(
      "testpiece", "Make a printable piece that shows what a printer can do, or keep what one showed");
  piece->add_option("-o", words->folder, "Write the piece into this folder: 3MF to print, an assembly to check");
  piece->add_option("--process", words->process, "For this process (default: the first of the table)");
  piece->add_option("--pin-turns-from", words->turnsFrom, "Smallest clearance at which the pin turned, mm on the diameter");
  piece->add_option("--pin-flops-from", words->flopsFrom, "Smallest clearance at which the pin flopped");
  piece->add_option("--tongue-slides-from", words->slidesFrom, "Smallest clearance at which the tongue slid, mm both sides together");
  piece->add_option("--pin-across", words->pinMm, "Diameter of the printed pin by callipers, mm");
  piece->add_option("--tongue-across", words->tongueMm, "Thickness of the printed tongue, mm");
  piece->add_option("--hole", words->hole, "A hole's clearance as engraved, and its diameter by callipers, mm")->expected(2);
  piece->add_option("--slot", words->slot, "A slot's clearance as engraved, and its width, mm")->expected(2);
  piece->add_option("--as", words->name, "Keep the figures as a process of this name (default: in the process)");
  piece->add_option("--print-tables", words->tables, "Use and keep this file instead of your own");
  piece->callback([words, &exitCode] { exitCode = runTestPiece(*words); });
}

}  // namespace swingroom
