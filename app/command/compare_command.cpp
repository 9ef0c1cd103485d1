#include "app/command/compare_command.h"

#include <CLI/CLI.hpp>
#include <cstdio>
#include <memory>

#include "app/command/say.h"
#include "core/history/comparison_text.h"
#include "core/history/read_report.h"

namespace swingroom {
namespace {

struct CompareWords {
  std::string before, now;
  bool json = false;
  bool gaps = false;
};

bool isWorse(const Comparison& comparison, bool gapsCount) {
  const auto shrank = [](Change change) { return change == Change::shrank; };
  return comparison.anyWorse() || (gapsCount && comparison.count(shrank) > 0);
}

int runCompare(const CompareWords& words) {
  const Outcome<CheckFigures> before = readReport(words.before), now = readReport(words.now);
  for (const auto* report : {&before, &now}) {
    for (const Problem& problem : report->problems()) say(problem);
  }
  if (!before || !now) return 2;
  const Comparison comparison = compare(*before, *now);
  std::fputs((words.json ? toJson(comparison) : toText(comparison)).c_str(), stdout);
  return isWorse(comparison, words.gaps) ? 1 : 0;
}

}  // namespace

void addCompareCommand(CLI::App& app, int& exitCode) {
  auto words = std::make_shared<CompareWords>();
  CLI::App* compare = app.add_subcommand(
      "compare",
      "Hold a check's JSON report against an earlier one: what turned, and by what gaps");
  compare->add_option("OLD.json", words->before, "The earlier report")->required();
  compare->add_option("NEW.json", words->now, "The later report")->required();
  compare->add_flag("--json", words->json, "Say it as JSON (resources/comparison.schema.json)");
  compare->add_flag("--gaps", words->gaps,
                    "A gap that shrank counts as worse too, though it is still what is required");
  compare->callback([words, &exitCode] { exitCode = runCompare(*words); });
}

}  // namespace swingroom
