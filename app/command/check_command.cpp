#include "app/command/check_command.h"

#include <unistd.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <ctime>
#include <memory>
#include <optional>

#include "app/command/check_stage.h"
#include "app/command/say.h"
#include "core/files/document/read_document.h"
#include "core/files/loading/load_assembly.h"
#include "core/history/check_log.h"
#include "core/measure/report_folder.h"
#include "core/measure/stage_check.h"
#include "core/report/json_report.h"
#include "core/store/kept_check.h"

namespace swingroom {
namespace {

struct CheckWords {
  std::string file;
  std::string sequence;
  std::string stage;
  std::string reportFolder;
  std::string jsonFile;
  std::string csvFile;
  double resolutionMm = 0;
  unsigned threads = 0;
  bool noCache = false;
  bool noHistory = false;
  bool print = false;
};

/// Files that were asked for; the first one that cannot be written ends it.
std::optional<Problem> writeFiles(const CheckWords& words, const CheckReport& report, const SweepSettings& settings) {
  if (!words.jsonFile.empty()) {
    if (auto problem = writeFile(words.jsonFile, toJson(report))) return problem;
  }
  if (!words.csvFile.empty()) {
    if (auto problem = writeFile(words.csvFile, toCsv(report))) return problem;
  }
  if (words.reportFolder.empty()) return std::nullopt;
  const Outcome<ReadDocument> read = readDocument(words.file);
  if (!read) return read.problems().front();
  const AssemblyDocument document = withStage(read->document, words.stage);
  const AssemblyGeometry geometry = prepareGeometry(report.loaded->assembly, settings.threads);
  return writeReportFolder(words.reportFolder, {&report, &document, &geometry, words.file},
                           settings);
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

/// A check of all ways; what could not be kept is not worth a word.
void keepInLog(const std::string& file, const CheckReport& report) {
  const auto log = makeUserLog();
  if (!log) return;
  LoggedCheck check;
  check.when = static_cast<std::int64_t>(std::time(nullptr));
  check.by = "check";
  check.put(figuresOf(report));
  log->add(file, std::move(check));
}

int runCheck(const CheckWords& words) {
  if (words.print) {
    say({"--print", "the print checks are not built yet", "leave --print out: gaps and contacts are checked"});
    return 2;
  }
  const unsigned threads = words.threads > 0 ? words.threads : defaultThreads();
  Outcome<LoadedAssembly> loaded = loadForCheck(words.file, words.stage, threads);
  if (!loaded) {
    for (const Problem& problem : loaded.problems()) say(problem);
    return 2;
  }
  for (const Problem& note : loaded->notes) std::fprintf(stderr, "note: %s\n", toText(note).c_str());
  Outcome<std::vector<Sequence>> ways = chooseWays(words, *loaded);
  if (!ways) {
    say(ways.problems().front());
    return 2;
  }
  SweepSettings settings;
  settings.threads = threads;
  settings.resolutionMm = words.resolutionMm > 0 ? words.resolutionMm : loaded->assembly.resolutionMm();
  CheckReport report{&*loaded, settings.resolutionMm, *ways, {}};
  const auto monitor = makeMonitor();
  const std::shared_ptr<ResultStore> store = words.noCache ? nullptr : makeUserStore();
  report.results = sweepKept(loaded->assembly, loaded->modes, report.ways, settings, store.get(), *monitor);
  if (const auto problem = writeFiles(words, report, settings)) {
    say(*problem);
    return 2;
  }
  if (words.sequence.empty() && !words.noHistory) keepInLog(words.file, report);
  std::fputs(toSummary(report).c_str(), stdout);
  return passes(report) ? 0 : 1;
}

}  // namespace

void addCheckCommand(CLI::App& app, int& exitCode) {
  auto words = std::make_shared<CheckWords>();
  CLI::App* check = app.add_subcommand("check", "Check every pair of parts in every mode and on the way between");
  check->add_option("FILE", words->file, "Assembly file (.swing.json)")->required();
  check->add_option("--sequence", words->sequence, "Only this sequence");
  check->add_option("--stage", words->stage, "With the meshes of this stage, for all parts that have it")
      ->check(CLI::IsMember({"block", "detail"}));
  check->add_option("--report", words->reportFolder, "Write report.html, report.json and pairs.csv into this folder");
  check->add_option("--json", words->jsonFile, "Write the JSON report to this file");
  check->add_option("--csv", words->csvFile, "Write a table of all pairs to this file");
  check->add_option("--resolution", words->resolutionMm, "Width of the gaps' brackets, mm")
      ->check(CLI::Range(1e-4, 1.0));
  check->add_option("--threads", words->threads, "How many threads (default: all cores)")->check(CLI::Range(1, 1024));
  check->add_flag("--no-cache", words->noCache, "Check every pair anew; neither use nor keep earlier results");
  check->add_flag("--no-history", words->noHistory, "Leave this check out of the log of checks");
  check->add_flag("--print", words->print, "Print checks too");
  check->callback([words, &exitCode] { exitCode = runCheck(*words); });
}

}  // namespace swingroom
