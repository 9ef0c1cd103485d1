#include <algorithm>
#include <cmath>

#include "core/report/html/print/print_parts.h"
#include "core/report/html/print/print_sections.h"

namespace swingroom::html {
namespace {

/// Hints that speak of where toys are judged: the caution stands beside them.
bool isCaution(PrintWord word) {
  return word == PrintWord::smallPart || word == PrintWord::smallBall ||
         word == PrintWord::fingerGap || word == PrintWord::sharpEdge;
}

int decimalsFor(const PrintFinding& finding, double value) {
  if (finding.unit == "mm") return 2;
  if (finding.unit == "deg" || finding.unit == "%") return 1;
  if (finding.unit == "parts" || finding.unit.empty()) return 0;
  return decimalsOf(value);
}

std::string unitWord(const std::string& unit) {
  if (unit == "deg") return "°";
  return unit.empty() ? "" : "\u00a0" + unit;
}

/// "0.42 mm, needed 0.80 mm": the bracket's ends as the JSON report has them.
std::string figureOf(const PrintFinding& finding) {
  const int decimals = decimalsFor(finding, finding.upper);
  const bool exact = finding.lower == finding.upper;
  const double lower = exact ? rounded(finding.lower) : roundedDown(finding.lower);
  const double upper = exact ? rounded(finding.upper) : roundedUp(finding.upper);
  std::string text = "<b>" + range(lower, upper, decimals) + unitWord(finding.unit) + "</b>";
  if (finding.needed && std::isfinite(*finding.needed)) {
    text += "<span class=\"needs\">against " + figure(rounded(*finding.needed), decimalsFor(finding, *finding.needed)) +
            unitWord(finding.unit) + "</span>";
  }
  return text;
}

/// Some hints count nothing but themselves.
bool hasFigure(const PrintFinding& finding) {
  return !finding.unit.empty();
}

std::string findingLine(const PrintSubject& subject, const PrintFinding& finding) {
  std::string out = "<div class=\"row\"><span class=\"what\"><span class=\"word\">" +
                    layerMark(LayerMark::finding) + "<b>" + wordFor(finding.word) +
                    "</b></span></span><span class=\"told\"><b>" +
                    escaped(printSubjectOf(subject, finding)) + "</b>: " +
                    escaped(finding.sentence) + "</span>";
  if (hasFigure(finding)) out += "<span class=\"fig\">" + figureOf(finding) + "</span>";
  return out + "</div>";
}

std::string hintLine(const PrintSubject& subject, const PrintFinding& hint) {
  return "<div class=\"row\"><b>" + escaped(printSubjectOf(subject, hint)) +
         "</b><span class=\"told\">" + escaped(hint.sentence) + "</span></div>";
}

/// The hints of one word, folded; its summary says of what they are.
struct HintGroup {
  PrintWord word;
  std::vector<const PrintFinding*> hints;
};

std::vector<HintGroup> groupsOf(const PrintFindings& findings) {
  std::vector<HintGroup> groups;
  for (const PrintFinding& finding : findings) {
    if (finding.grade != PrintGrade::hint) continue;
    auto known = std::find_if(groups.begin(), groups.end(),
                              [&](const HintGroup& group) { return group.word == finding.word; });
    if (known == groups.end()) known = groups.insert(groups.end(), {finding.word, {}});
    known->hints.push_back(&finding);
  }
  return groups;
}

/// The first subjects of a group, each once.
std::string subjectsOf(const PrintSubject& subject, const HintGroup& group) {
  constexpr std::size_t kMost = 3;
  std::vector<std::string> names;
  for (const PrintFinding* hint : group.hints) {
    const std::string name = printSubjectOf(subject, *hint);
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  std::string text;
  for (std::size_t i = 0; i < std::min(kMost, names.size()); ++i) {
    text += (i == 0 ? "" : "; ") + escaped(names[i]);
  }
  if (names.size() > kMost) text += "; and " + std::to_string(names.size() - kMost) + " more";
  return text;
}

std::string groupBlock(const PrintSubject& subject, const HintGroup& group) {
  std::string lines;
  for (const PrintFinding* hint : group.hints) lines += hintLine(subject, *hint);
  return "<details><summary>" + layerMark(LayerMark::hint) + "<b>" + wordFor(group.word) + "</b> " +
         std::to_string(group.hints.size()) + "<span class=\"q\">" + subjectsOf(subject, group) +
         "</span></summary>" + lines + "</details>";
}

std::string hintBlocks(const PrintSubject& subject, const PrintFindings& findings) {
  std::string ofPrint, ofCautions;
  for (const HintGroup& group : groupsOf(findings)) {
    (isCaution(group.word) ? ofCautions : ofPrint) += groupBlock(subject, group);
  }
  std::string out;
  if (!ofPrint.empty()) {
    out += subTitle("Worth knowing") + "<div class=\"hints panel\">" + ofPrint + "</div>";
  }
  if (!ofCautions.empty()) {
    out += subTitle("Cautions") + cautionBlock() + "<div class=\"hints panel\">" +
           ofCautions + "</div>";
  }
  return out;
}

/// Each once, in the order of the parts.
template <typename NameOf>
std::string namesOf(const PrintSubject& subject, const char* separator, NameOf nameOf) {
  std::vector<std::string> names;
  for (const PartPrint& print : subject.parts) {
    const std::string name = nameOf(print);
    if (print.printed && std::find(names.begin(), names.end(), name) == names.end())
      names.push_back(name);
  }
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : separator) + escaped(name);
  return text;
}

std::string processWords(const PrintSubject& subject) {
  return "By " +
         namesOf(subject, " and by ", [](const PartPrint& print) { return print.process.name; }) +
         "; of " + namesOf(subject, ", ", [](const PartPrint& print) { return print.material.name; });
}

}  // namespace

std::string printLine(const ReportPage& page) {
  if (!page.report->print) return "";
  const PrintResult& result = *page.report->print->result;
  const std::size_t findings = result.count(PrintGrade::finding);
  const std::size_t hints = result.count(PrintGrade::hint);
  const LayerMark mark = findings > 0 ? LayerMark::finding
                         : hints > 0  ? LayerMark::hint
                                      : LayerMark::passes;
  std::string text = "As printed: ";
  text += findings == 0 ? "no finding" : counted(findings, "finding", "findings");
  if (hints > 0) text += ", " + counted(hints, "hint", "hints") + " worth knowing";
  return "<p class=\"says second\">" + layerMark(mark) + "<span><a href=\"#print\">" + text +
         "</a>. A real print decides.</span></p>";
}

std::string printFindingsSection(const ReportPage& page) {
  const PrintReport& print = *page.report->print;
  std::string lines;
  for (const PrintFinding& finding : print.result->findings) {
    if (finding.grade == PrintGrade::finding) lines += findingLine(*print.subject, finding);
  }
  const std::string found =
      lines.empty()
          ? "<p>" + layerMark(LayerMark::passes) + " No finding, of what was looked at.</p>"
          : "<div class=\"rows panel found\">" + lines + "</div>";
  return sectionOf("print", "As printed",
                   processWords(*print.subject) +
                       ". Findings fail the print check, hints are worth knowing. Figures of "
                       "processes and materials are indicative; a real print decides.",
                   found + hintBlocks(*print.subject, print.result->findings));
}

std::string printSections(const ReportPage& page) {
  if (!page.report->print) return "";
  return "<div class=\"part-two\">" + printFindingsSection(page) + printedGapsSection(page) +
         printersSection(page) + fitsSection(page) + gripsSection(page) + seamsSection(page) +
         wallsSection(page) + holdSection(page) + standSection(page) + setSection(page) +
         printCautionsSection(page) + processesSection(page) + "</div>";
}

}  // namespace swingroom::html
