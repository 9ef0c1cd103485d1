#include "app/command/loads_command.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <memory>
#include <string>

#include "app/command/check_print.h"
#include "app/command/say.h"
#include "core/measure/print_files.h"
#include "core/print/weight/part_mass.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct LoadsWords {
  std::string file, folder, tables;
  SubjectWords subject;
  int sets = 1;
  LoadSettings settings;
  unsigned threads = 0;
};

std::string cubicCm(double mm3) { return words::fixed(mm3 / 1000, 1) + " cm3"; }

void sayItem(const SetItem& item) {
  std::string line = "  " + std::to_string(item.count) + " x " + item.name;
  line.resize(std::max<std::size_t>(line.size() + 1, 32), ' ');
  line += words::fixed(item.sizeMm.x(), 1) + " x " + words::fixed(item.sizeMm.y(), 1) + " x " +
          words::fixed(item.sizeMm.z(), 1) + " mm";
  if (item.mass) line += ", " + words::fixed(item.mass->massG, 2) + " g";
  line += ", " + (item.printed ? item.material + " " + item.colour : std::string("bought"));
  if (item.printed && !item.stands.empty()) {
    line += item.stands.front().needsSupport()
                ? ", supports under " + words::fixed(item.stands.front().supportMm2, 0) + " mm2"
                : ", no supports";
  }
  std::printf("%s\n", line.c_str());
}

void sayTotals(const char* what, const SetTotals& totals) {
  std::printf("%s: %s on %s, %s, %s g (%s to %s)", what,
              words::counted(totals.pieces, "piece", "pieces").c_str(),
              words::counted(totals.loads, "load", "loads").c_str(), cubicCm(totals.volumeMm3).c_str(),
              words::fixed(totals.mass.massG, 1).c_str(), words::fixed(totals.mass.lowerG, 1).c_str(),
              words::fixed(totals.mass.upperG, 1).c_str());
  if (totals.strandMm > 0) std::printf(", about %s m of filament", words::fixed(totals.strandMm / 1000, 1).c_str());
  std::printf("\n");
}

int writeLoads(const LoadsWords& words, const PrintSubject& subject) {
  WorkMonitor monitor;
  const PrintSet set = printSet(subject, pieceMasses(partMasses(subject, monitor)), words.settings, monitor);
  for (const SetItem& item : set.items) sayItem(item);
  sayTotals("One set", set.totals);
  if (words.sets > 1) {
    const std::string what = std::to_string(words.sets) + " sets";
    sayTotals(what.c_str(), armyTotals(subject, set, words.sets, words.settings));
  }
  std::printf("To put together: %zu pieces, %zu of them pins of joints.\n", set.assembledPieces, set.jointPins);
  PrintFindings findings;
  addSetFindings(subject, set, findings);
  for (const PrintFinding& finding : findings) {
    std::printf("  %s: %s: %s\n", wordFor(finding.word),
                printSubjectOf(subject, finding).c_str(), finding.sentence.c_str());
  }
  if (!words.folder.empty()) {
    const auto files = writeSetFiles(words.folder, subject, set);
    if (!files) return fail(files.problems());
    for (const SetFile& file : *files) {
      std::printf("  %s: %s\n", (std::filesystem::path(words.folder) / file.name).c_str(),
                  words::counted(file.pieces, "piece", "pieces").c_str());
    }
  }
  return set.totals.notLaid > 0 ? 1 : 0;
}

int runLoads(const LoadsWords& words) {
  const unsigned threads = words.threads > 0 ? words.threads : defaultThreads();
  Outcome<PrintTables> tables = tablesFor(words.tables);
  if (!tables) return fail(tables.problems());
  Outcome<std::deque<CheckSubject>> subjects = loadSubjects(words.file, words.subject, threads);
  if (!subjects) return fail(subjects.problems());
  CheckSubject& subject = subjects->front();
  subject.report.ways = waysToCheck(subject.loaded.modes, subject.loaded.sequences);
  CheckedPrint print;
  askPrint(subject, *tables, words.file, threads, print);
  for (const Problem& note : print.asked.notes) std::fprintf(stderr, "note: %s\n", toText(note).c_str());
  return writeLoads(words, print.subject);
}

}  // namespace

void addLoadsCommand(CLI::App& app, int& exitCode) {
  auto words = std::make_shared<LoadsWords>();
  CLI::App* loads = app.add_subcommand("loads", "The set to print: parts list, laid on beds, a 3MF file a colour");
  loads->add_option("FILE", words->file, "Assembly file (.swing.json)")->required();
  loads->add_option("-o", words->folder, "Write the files into this folder (default: the list only)");
  loads->add_option("--sets", words->sets, "Totals for so many figures, too")->check(CLI::Range(1, 10000));
  loads->add_option("--spacing", words->settings.spacingMm, "Between two pieces, mm")->check(CLI::Range(0.0, 100.0));
  loads->add_option("--margin", words->settings.marginMm, "To the bed's edges, mm")->check(CLI::Range(0.0, 100.0));
  loads->add_option("--stage", words->subject.stage, "With the meshes of this stage, for all parts that have it")
      ->check(CLI::IsMember({"block", "detail"}));
  loads->add_option("--variant", words->subject.variant, "This variant");
  loads->add_option("--print-tables", words->tables, "With the printers and materials of this file");
  loads->add_option("--threads", words->threads, "How many threads (default: all cores)")->check(CLI::Range(1, 1024));
  loads->callback([words, &exitCode] { exitCode = runLoads(*words); });
}

}  // namespace swingroom
