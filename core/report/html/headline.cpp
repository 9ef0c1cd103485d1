#include <algorithm>

#include "core/report/html/marks.h"
#include "core/report/html/print/print_sections.h"
#include "core/report/html/sections.h"
#include "core/report/html/text.h"
#include "core/report/print/print_report.h"

namespace swingroom::html {
namespace {

using Counts = std::array<std::size_t, kVerdicts.size()>;

Counts countsOf(const std::vector<Verdict>& verdicts) {
  Counts counts{};
  for (std::size_t v = 0; v < kVerdicts.size(); ++v) {
    counts[v] =
        static_cast<std::size_t>(std::count(verdicts.begin(), verdicts.end(), kVerdicts[v]));
  }
  return counts;
}

std::string findingWords(std::size_t count, Verdict verdict) {
  const bool one = count == 1;
  const std::string pairs = counted(count, "pair ", "pairs ");
  switch (verdict) {
    case Verdict::clash:
      return pairs + (one ? "clashes" : "clash");
    case Verdict::tight:
      return pairs + (one ? "is" : "are") + " closer than required";
    case Verdict::loose:
      return pairs + (one ? "does" : "do") + " not touch or grip as intended";
    case Verdict::unproven:
      return pairs + (one ? "is" : "are") + " not proven either way";
    default:
      return "";
  }
}

/// The whole in one sentence.
std::string sentenceOf(const Counts& counts, std::size_t pairs) {
  if (pairs == 0) return "There is no pair of parts with meshes: nothing was checked.";
  std::string found;
  std::size_t kinds = 0, total = 0;
  for (std::size_t v = 0; v < 4; ++v) {
    if (counts[v] > 0) ++kinds, total += counts[v];
  }
  std::size_t told = 0;
  for (std::size_t v = 0; v < 4; ++v) {
    if (counts[v] == 0) continue;
    ++told;
    found += (told == 1       ? ""
              : told == kinds ? " and "
                              : ", ") +
             findingWords(counts[v], kVerdicts[v]);
  }
  if (total == 0) {
    const std::string which =
        pairs == 1 ? "The one pair is" : "All " + std::to_string(pairs) + " pairs are";
    return which + " proven clear" + (counts[5] > 0 ? " or allowed" : "") +
           ", in every mode and all the way between.";
  }
  if (counts[0] + counts[1] + counts[2] == 0) return "Nothing wrong was found, but " + found + ".";
  return "It does not pass: " + found + ", of " + std::to_string(pairs) + ".";
}

std::string countList(const Counts& counts) {
  std::string out = "<ul class=\"counts panel\">";
  for (std::size_t v = 0; v < kVerdicts.size(); ++v) {
    out += std::string("<li") + (counts[v] == 0 ? " class=\"none\"" : "") + "><b>" +
           std::to_string(counts[v]) + "</b>" + markAndWord(kVerdicts[v]) + "</li>";
  }
  return out + "</ul>";
}

std::string listOf(const std::vector<std::string>& names) {
  std::string out;
  for (std::size_t i = 0; i < names.size(); ++i) {
    out += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + escaped(names[i]);
  }
  return out;
}

std::string whatWasChecked(const ReportPage& page) {
  const CheckReport& report = *page.report;
  std::vector<std::string> modes, ways;
  for (const Mode& mode : report.loaded->modes) modes.push_back(mode.name);
  for (const Sequence& way : report.ways) {
    if (!standsStill(way)) ways.push_back(way.name);
  }
  const std::size_t pairs = report.results.empty() ? 0 : report.results.front().pairs.size();
  std::string out = counted(report.loaded->assembly.parts().size(), "part", "parts") + ", " +
                    counted(pairs, "pair", "pairs") + ", in " +
                    counted(modes.size(), "mode", "modes") + " (" + listOf(modes) + ")";
  out += ways.empty()
             ? "; no way between modes"
             : " and at every instant of " + counted(ways.size(), "sequence", "sequences") + " (" +
                   listOf(ways) + ")";
  return out + "; gaps that matter are known to " + shortest(report.resolutionMm) + "\u00a0mm";
}

std::string tightest(const ReportPage& page) {
  const CheckReport& report = *page.report;
  const auto found = tightestThatPasses(report);
  if (!found) return "none: no pair that passes comes within 1.5 mm of its required gap";
  const PairResult& pair = resultOf(report, *found);
  return "<a href=\"#" + pairAnchor(pair.a, pair.b) + "\">" +
         pairNames(report.loaded->assembly, pair.a, pair.b) + "</a>, <b>" +
         data(roundedUp(*pair.gap.upperMm),
              gapFigure(roundedUp(*pair.gap.upperMm), pair.requiredGapMm)) +
         "</b> (required " + millimetres(pair.requiredGapMm) + "), " +
         whereInWay(report, found->way, *pair.gap.instant);
}

std::string worst(const ReportPage& page) {
  const CheckReport& report = *page.report;
  const Finding& finding = page.findings.front();
  const PairResult& pair = resultOf(report, finding.where.front());
  return mark(finding.verdict) + " <a href=\"#finding-1\">" +
         pairNames(report.loaded->assembly, finding.a, finding.b) + "</a>, <b>" +
         findingFigure(report, pair) + "</b>, " +
         whereWorst(report, finding.where.front().way, pair);
}

/// Counts of each way, where there are several.
std::string wayCounts(const ReportPage& page) {
  const CheckReport& report = *page.report;
  if (report.results.size() < 2) return "";
  std::string out;
  for (std::size_t w = 0; w < report.results.size(); ++w) {
    out += "<dt>" + wayName(report, w) + "</dt><dd class=\"tally\">";
    const auto counts = countVerdicts(report.results[w]);
    for (std::size_t v = 0; v < kVerdicts.size(); ++v) {
      if (counts[v] > 0)
        out += "<span class=\"word\">" + mark(kVerdicts[v]) + " " + std::to_string(counts[v]) +
               " " + wordFor(kVerdicts[v]) + "</span>";
    }
    out += "</dd>";
  }
  return out;
}

/// How many of the variants that were checked with it do not pass.
std::string variantsFact(const ReportPage& page) {
  const auto& variants = page.report->variants;
  if (variants.empty()) return "";
  std::vector<std::string> failing;
  for (const CheckReport* variant : variants) {
    if (!passes(*variant)) failing.push_back(variant->variant);
  }
  std::string out = "<dt><a href=\"#variants\">Variants</a></dt><dd>";
  if (failing.empty()) {
    return out + counted(variants.size(), "more, which passes", "more, which all pass") + "</dd>";
  }
  return out + std::to_string(failing.size()) + " of " + std::to_string(variants.size()) +
         (failing.size() == 1 ? " does not pass: " : " do not pass: ") + listOf(failing) + "</dd>";
}

}  // namespace

std::string headline(const ReportPage& page) {
  const CheckReport& report = *page.report;
  const std::vector<Verdict> verdicts = worstOfPairs(report);
  const Counts counts = countsOf(verdicts);
  Verdict whole = Verdict::clear;
  for (const Verdict verdict : verdicts) whole = std::min(whole, verdict);
  if (verdicts.empty()) whole = Verdict::unproven;
  std::string out = "<section class=\"head\" id=\"verdict\"><h1>" +
                    escaped(report.loaded->assembly.name()) +
                    (report.variant.empty() ? "" : ", variant " + escaped(report.variant)) +
                    "</h1>";
  out += "<p class=\"says\">" + mark(whole) + "<span>" + sentenceOf(counts, verdicts.size()) +
         "</span></p>" + printLine(page);
  out += countList(counts) + "<dl class=\"facts\">";
  out += "<dt>Holds</dt><dd>as modelled; " +
         (report.print ? "<a href=\"#print\">" + escaped(printHeadline(*report.print->result)) + "</a>"
                       : std::string("as printed: not checked yet")) +
         "</dd>";
  out += "<dt>Checked</dt><dd>" + whatWasChecked(page) + "</dd>";
  if (!page.findings.empty()) out += "<dt>Worst</dt><dd>" + worst(page) + "</dd>";
  out += variantsFact(page);
  out += "<dt>Tightest that passes</dt><dd>" + tightest(page) + "</dd>" + wayCounts(page) + "</dl>";
  return out + "</section>";
}

}  // namespace swingroom::html
