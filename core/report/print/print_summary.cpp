#include <algorithm>

#include "core/report/print/print_report.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

/// Most hints that a terminal shows of one word.
constexpr std::size_t kMostHints = 3;

std::string processNames(const PrintSubject& subject) {
  std::vector<std::string> names;
  for (const PartPrint& print : subject.parts) {
    if (!print.printed) continue;
    if (std::find(names.begin(), names.end(), print.process.name) == names.end()) {
      names.push_back(print.process.name);
    }
  }
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : "; ") + name;
  return text;
}

void addLine(const PrintReport& report, const PrintFinding& finding, std::string& text) {
  std::string word = wordFor(finding.word);
  word.resize(std::max<std::size_t>(word.size() + 1, 24), ' ');
  text += "  " + word + printSubjectOf(*report.subject, finding) + ": " + finding.sentence + "\n";
}

std::string hints(const PrintReport& report) {
  std::string text;
  std::vector<std::pair<PrintWord, std::size_t>> told;
  for (const PrintFinding& finding : report.result->findings) {
    if (finding.grade != PrintGrade::hint) continue;
    auto known = std::find_if(told.begin(), told.end(),
                              [&](const auto& one) { return one.first == finding.word; });
    if (known == told.end()) known = told.insert(told.end(), {finding.word, 0});
    if (++known->second <= kMostHints) addLine(report, finding, text);
  }
  for (const auto& [word, count] : told) {
    if (count <= kMostHints) continue;
    text += "  " + std::string(wordFor(word)) + ": " + std::to_string(count - kMostHints) +
            " more, in the JSON report\n";
  }
  return text.empty() ? text : "  Worth knowing:\n" + text;
}

/// Where something is said of small parts, openings or edges: what it is worth.
std::string cautions(const PrintReport& report) {
  if (report.result->cautions.parts.empty()) return "";
  std::string text = "  Cautions:\n";
  for (const std::string& note : cautionNotes()) text += "    " + note + "\n";
  return text;
}

std::string percent(double scale) {
  return words::fixed(100 * scale, 0) + " %";
}

std::string by(const std::string& limit) {
  return limit.empty() ? "" : " (" + limit + ")";
}

std::string printersText(const PrinterWindow& window) {
  if (window.region.empty()) return "  No printer that was looked at keeps all of it.\n";
  std::string text;
  if (!window.growthMm.empty) {
    text += "  Growth at which gaps and fits pass: " + words::fixed(window.growthMm.from, 3) +
            by(window.growthMm.fromLimit) + " to " + words::fixed(window.growthMm.to, 3) +
            " mm a side" + by(window.growthMm.toLimit) + ", at full scale\n";
  }
  if (!window.scale.empty) {
    text += "  Scale: " + percent(window.scale.from) + by(window.scale.fromLimit) + " to " +
            percent(window.scale.to) + by(window.scale.toLimit) + ", at " +
            words::fixed(window.expectedGrowthMm, 3) + " mm of growth a side\n";
  }
  return text;
}

}  // namespace

std::string printOutcome(const PrintResult& result) {
  const std::size_t findings = result.count(PrintGrade::finding);
  const std::size_t hintCount = result.count(PrintGrade::hint);
  std::string text =
      findings == 0 ? "nothing found" : words::counted(findings, "finding", "findings");
  if (hintCount > 0) text += ", " + words::counted(hintCount, "hint", "hints");
  return text;
}

std::string printHeadline(const PrintResult& result) {
  return "as printed: " + printOutcome(result);
}

std::string printSubjectOf(const PrintSubject& subject, const PrintFinding& finding) {
  const Assembly& assembly = *subject.assembly;
  std::string text;
  if (finding.joint) text = "joint " + assembly.joint(*finding.joint).name;
  if (!finding.joint && finding.parts.empty()) text = "the whole figure";
  if (!finding.joint) {
    for (std::size_t i = 0; i < finding.parts.size(); ++i) {
      text += (i == 0 ? "" : " and ") + assembly.part(finding.parts[i]).name;
    }
  }
  if (finding.mode) text += ", in " + subject.modes->at(finding.mode->index).name;
  return text;
}

std::string printSummary(const PrintReport& report) {
  std::string text = "\nAs printed (" + processNames(*report.subject) + ")\n  " +
                     printOutcome(*report.result) + "\n";
  for (const PrintFinding& finding : report.result->findings) {
    if (finding.grade == PrintGrade::finding) addLine(report, finding, text);
  }
  text += hints(report) + cautions(report) + printersText(report.result->printers);
  return text + "  Figures of processes and materials are indicative; a real print decides.\n";
}

}  // namespace swingroom
