#include "core/report/variant_table.h"

#include "core/report/html/marks.h"
#include "core/report/html/sections.h"
#include "core/report/html/text.h"

namespace swingroom::html {
namespace {

std::string countsOf(const VariantRow& row) {
  std::string out;
  for (std::size_t v = 0; v < kVerdicts.size(); ++v) {
    if (row.counts[v] == 0) continue;
    out += "<span class=\"word\">" + mark(kVerdicts[v]) + " " + std::to_string(row.counts[v]) +
           " " + wordFor(kVerdicts[v]) + "</span> ";
  }
  return out;
}

std::string tableRow(const VariantRow& row, const std::string& link) {
  const std::string name = escaped(row.name.empty() ? "this page: the plain file" : row.name);
  return "<tr><th scope=\"row\">" +
         (link.empty() ? name : "<a href=\"" + link + "/report.html\">" + name + "</a>") +
         "</th><td>" + markAndWord(row.whole) + "</td><td>" + countsOf(row) + "</td><td>" +
         (row.place.empty() ? "" : row.passes() ? "tightest: " : "") + escaped(row.place) +
         "</td></tr>";
}

}  // namespace

std::string variantsSection(const ReportPage& page) {
  const CheckReport& report = *page.report;
  if (report.variants.empty()) return "";
  std::vector<std::string> names;
  for (const CheckReport* variant : report.variants) names.push_back(variant->variant);
  const std::vector<std::string> folders = variantFolders(names);
  std::string out =
      "<section id=\"variants\"><h2>Variants</h2><p class=\"lead\">Other parts on the same "
      "assembly, each checked in every mode and all the way between. A pair counts with its worst "
      "verdict over all ways.</p><div class=\"scroll panel\"><table><thead><tr><th "
      "scope=\"col\">Variant</th><th scope=\"col\">Verdict</th><th scope=\"col\">Pairs</th><th "
      "scope=\"col\">Worst place</th></tr></thead><tbody>";
  out += tableRow(variantRowOf(report), "");
  for (std::size_t v = 0; v < names.size(); ++v) {
    out += tableRow(variantRowOf(*report.variants[v]), folders[v]);
  }
  return out + "</tbody></table></div></section>";
}

}  // namespace swingroom::html
