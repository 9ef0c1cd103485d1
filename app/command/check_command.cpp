#include "app/command/check_command.h"

#include <unistd.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <ctime>
#include <deque>
#include <memory>
#include <optional>

#include "app/command/check_print.h"
#include "app/command/check_subjects.h"
#include "app/command/say.h"
#include "core/files/loading/load_assembly.h"
#include "core/history/check_log.h"
#include "core/measure/report_folder.h"
#include "core/report/json_report.h"
#include "core/report/variant_table.h"
#include "core/store/kept_check.h"

namespace swingroom {
namespace {

struct CheckWords {
  std::string file;
  std::string sequence;
  SubjectWords subjects;
  std::string reportFolder;
  std::string jsonFile;
  std::string csvFile;
  double resolutionMm = 0;
  unsigned threads = 0;
  bool noCache = false;
  bool noHistory = false;
  bool print = false;
  std::string printTables;
};

/// The folder with the page of one subject; those of variants stand in folders beneath.
std::optional<Problem> writeFolder(const CheckWords& words, const std::filesystem::path& folder,
                                   const CheckSubject& subject, const SweepSettings& settings) {
  // The print checks have made it ready already, if there were any.
  const AssemblyGeometry geometry = subject.print ? subject.print->geometry
                                                  : prepareGeometry(subject.loaded.assembly, settings.threads);
  return writeReportFolder(folder, {&subject.report, &subject.written.document, &geometry, words.file}, settings);
}

std::optional<Problem> writeFolders(const CheckWords& words,
                                    const std::deque<CheckSubject>& subjects,
                                    const SweepSettings& settings) {
  const std::filesystem::path folder = words.reportFolder;
  std::vector<std::string> names;
  for (std::size_t i = 1; i < subjects.size(); ++i) names.push_back(subjects[i].written.name);
  const std::vector<std::string> beneath = variantFolders(names);
  for (std::size_t i = 1; i < subjects.size(); ++i) {
    if (auto problem = writeFolder(words, folder / beneath[i - 1], subjects[i], settings)) {
      return problem;
    }
  }
  return writeFolder(words, folder, subjects.front(), settings);
}

/// Files that were asked for; the first one that cannot be written ends it.
std::optional<Problem> writeFiles(const CheckWords& words, const std::deque<CheckSubject>& subjects,
                                  const SweepSettings& settings) {
  const CheckReport& report = subjects.front().report;
  if (!words.jsonFile.empty()) {
    if (auto problem = writeFile(words.jsonFile, toJson(report))) return problem;
  }
  if (!words.csvFile.empty()) {
    if (auto problem = writeFile(words.csvFile, toCsv(report))) return problem;
  }
  if (words.reportFolder.empty()) return std::nullopt;
  return writeFolders(words, subjects, settings);
}

/// The ways that are asked for: all, or the one that is named.
Outcome<std::vector<Sequence>> chooseWays(const CheckWords& words, const LoadedAssembly& loaded) {
  std::vector<Sequence> ways = waysToCheck(loaded.modes, loaded.sequences);
  if (words.sequence.empty()) return ways;
  std::string known;
  for (const Sequence& way : ways) {
    if (way.name == words.sequence) return std::vector<Sequence>{way};
    known += (known.empty() ? "" : ", ") + way.name;
  }
  return Problem{words.file, "has no sequence named " + words.sequence, "it has: " + known};
}

std::unique_ptr<WorkMonitor> makeMonitor() {
  if (!isatty(STDERR_FILENO)) return std::make_unique<WorkMonitor>();
  return std::make_unique<WorkMonitor>([](std::size_t done, std::size_t total) {
    std::fprintf(stderr, done < total ? "\rchecked %zu of %zu pairs" : "\r\033[K", done, total);
  });
}

/// All ways of the file as it is, or of it and its variants: what the log keeps.
bool isWholeCheck(const CheckWords& words) {
  const SubjectWords& subjects = words.subjects;
  return !words.noHistory && words.sequence.empty() && subjects.stage.empty() &&
         (subjects.variant.empty() || subjects.variant == kAllVariants);
}

/// What could not be kept is not worth a word.
void keepInLog(const std::string& file, const CheckReport& report) {
  const auto log = makeUserLog();
  if (!log) return;
  LoggedCheck check;
  check.when = static_cast<std::int64_t>(std::time(nullptr));
  check.by = "check";
  check.put(figuresOf(report));
  log->add(file, std::move(check));
}

/// Pairs that are the same in several variants are checked once.
void checkSubjects(const CheckWords& words, std::deque<CheckSubject>& subjects,
                   SweepSettings& settings) {
  std::shared_ptr<ResultStore> store = words.noCache ? nullptr : makeUserStore();
  if (!store && subjects.size() > 1) store = std::make_shared<ResultStore>();
  for (CheckSubject& subject : subjects) {
    const LoadedAssembly& loaded = subject.loaded;
    settings.resolutionMm =
        words.resolutionMm > 0 ? words.resolutionMm : loaded.assembly.resolutionMm();
    const auto monitor = makeMonitor();
    CheckReport& report = subject.report;
    // The variant's own sequences: what it replaces may change where they start and end.
    report = {&loaded, settings.resolutionMm, chooseWays(words, loaded).value(), {}};
    report.variant = subject.written.name;
    report.results =
        sweepKept(loaded.assembly, loaded.modes, report.ways, settings, store.get(), *monitor);
  }
  for (std::size_t i = 1; i < subjects.size(); ++i) {
    subjects.front().report.variants.push_back(&subjects[i].report);
  }
}

/// What was found out about a note is told once for all subjects.
void checkPrints(const CheckWords& words, std::deque<CheckSubject>& subjects,
                 const PrintTables& tables, unsigned threads) {
  Problems told = tables.notes;
  for (CheckSubject& subject : subjects) {
    checkPrintOf(subject, tables, words.file, threads);
    for (const Problem& note : subject.print->asked.notes) {
      if (std::find(told.begin(), told.end(), note) == told.end()) told.push_back(note);
    }
  }
  for (const Problem& note : told) std::fprintf(stderr, "note: %s\n", toText(note).c_str());
}

bool passesAll(const CheckSubject& subject) {
  return passes(subject.report) && (!subject.print || subject.print->result.passes());
}

/// In full what stands alone, and of several the first and those that do not pass; then a table.
void sayResults(const std::deque<CheckSubject>& subjects) {
  std::vector<VariantRow> rows;
  for (const CheckSubject& subject : subjects) {
    rows.push_back(variantRowOf(subject.report));
    if (rows.size() > 1 && passesAll(subject)) continue;
    std::fputs((toSummary(subject.report) + (subjects.size() > 1 ? "\n" : "")).c_str(), stdout);
  }
  if (subjects.size() > 1) std::fputs(variantTable(rows).c_str(), stdout);
}

int runCheck(const CheckWords& words) {
  const unsigned threads = words.threads > 0 ? words.threads : defaultThreads();
  Outcome<std::deque<CheckSubject>> subjects = loadSubjects(words.file, words.subjects, threads);
  if (!subjects) return fail(subjects.problems());
  for (const Problem& note : notesOf(*subjects)) {
    std::fprintf(stderr, "note: %s\n", toText(note).c_str());
  }
  const Outcome<std::vector<Sequence>> ways = chooseWays(words, subjects->front().loaded);
  if (!ways) return fail(ways.problems());
  Outcome<PrintTables> tables = words.print ? tablesFor(words.printTables) : builtInTables();
  if (!tables) return fail(tables.problems());
  SweepSettings settings;
  settings.threads = threads;
  checkSubjects(words, *subjects, settings);
  if (words.print) checkPrints(words, *subjects, *tables, threads);
  if (const auto problem = writeFiles(words, *subjects, settings)) {
    say(*problem);
    return 2;
  }
  if (isWholeCheck(words)) keepInLog(words.file, subjects->front().report);
  sayResults(*subjects);
  const bool allPass = std::all_of(subjects->begin(), subjects->end(),
                                   [](const CheckSubject& one) { return passesAll(one); });
  return allPass ? 0 : 1;
}

}  // namespace

void addCheckCommand(CLI::App& app, int& exitCode) {
  auto words = std::make_shared<CheckWords>();
  CLI::App* check = app.add_subcommand("check", "Check every pair of parts in every mode and on the way between");
  check->add_option("FILE", words->file, "Assembly file (.swing.json)")->required();
  check->add_option("--sequence", words->sequence, "Only this sequence");
  check->add_option("--stage", words->subjects.stage, "With the meshes of this stage, for all parts that have it")
      ->check(CLI::IsMember({"block", "detail"}));
  check->add_option("--variant", words->subjects.variant,
                    "This variant, or all: the plain file and each of its variants, and a table of them");
  check->add_option("--report", words->reportFolder, "Write report.html, report.json and pairs.csv into this folder");
  check->add_option("--json", words->jsonFile, "Write the JSON report to this file");
  check->add_option("--csv", words->csvFile, "Write a table of all pairs to this file");
  check->add_option("--resolution", words->resolutionMm, "Width of the gaps' brackets, mm")
      ->check(CLI::Range(1e-4, 1.0));
  check->add_option("--threads", words->threads, "How many threads (default: all cores)")->check(CLI::Range(1, 1024));
  check->add_flag("--no-cache", words->noCache, "Check every pair anew; neither use nor keep earlier results");
  check->add_flag("--no-history", words->noHistory, "Leave this check out of the log of checks");
  check->add_flag("--print", words->print, "Whether it prints, holds and stands, too");
  check->add_option("--print-tables", words->printTables, "With the printers and materials of this file")->needs("--print");
  check->callback([words, &exitCode] { exitCode = runCheck(*words); });
}

}  // namespace swingroom
