#include "core/report/html/page.h"

#include "core/report/html/marks.h"
#include "core/report/html/print/print_sections.h"
#include "core/report/html/sections.h"
#include "core/report/html/style.h"
#include "core/report/html/text.h"

namespace swingroom {
namespace {

using SectionNames = std::vector<std::pair<const char*, const char*>>;

/// Links to those of the sections that the page has.
std::string links(const std::string& body, const SectionNames& names) {
  std::string out;
  for (const auto& [id, name] : names) {
    const bool has = body.find(std::string("<section id=\"") + id + "\"") != std::string::npos;
    if (has) out += std::string("<a href=\"#") + id + "\">" + name + "</a>";
  }
  return out;
}

std::string contents(const std::string& body) {
  const std::string modelled = links(body, {{"variants", "Variants"},
                                            {"modes", "Modes"},
                                            {"findings", "Findings"},
                                            {"ribbon", "Gap ribbon"},
                                            {"pairs", "Pairs"},
                                            {"zones", "Joint zones"},
                                            {"contacts", "Contacts"},
                                            {"allowed", "Allowed pairs"}});
  const std::string printed = links(body, {{"print", "Findings"},
                                           {"print-gaps", "Gaps"},
                                           {"print-printers", "Printers"},
                                           {"print-fits", "Fits"},
                                           {"print-grips", "Grips"},
                                           {"print-seams", "Seams"},
                                           {"print-walls", "Walls"},
                                           {"print-hold", "Weight and hold"},
                                           {"print-stand", "Stand"},
                                           {"print-set", "The set to print"},
                                           {"print-cautions", "Small parts, openings, edges"},
                                           {"print-process", "Processes"}});
  const std::string about = links(body, {{"settings", "Settings and files"},
                                         {"limits", "Not looked at"},
                                         {"cautions", "Cautions"}});
  if (printed.empty()) return "<nav aria-label=\"Contents\">" + modelled + about + "</nav>";
  return "<nav class=\"two\" aria-label=\"Contents\"><span><span class=\"soft\">As modelled</span>" +
         modelled + "</span><span><span class=\"soft\">As printed</span>" + printed +
         "</span><span><span class=\"soft\">About it</span>" + about + "</span></nav>";
}

}  // namespace

std::string toHtml(const ReportPage& page) {
  using namespace html;
  std::string body = variantsSection(page) + modesSection(page) + findingsSection(page) + ribbonSection(page) +
                     pairsSection(page) + zonesSection(page) + contactsSection(page) +
                     printSections(page) + settingsSection(page) + limitsSection(page) + cautionsSection();
  std::string name = escaped(page.report->loaded->assembly.name());
  if (!page.report->variant.empty()) name += ", variant " + escaped(page.report->variant);
  std::string out =
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>" +
      name + ": gap report</title>\n<style>" + styleSheet() + "</style>\n</head>\n<body>\n" +
      sharedPatterns() +
      "<div class=\"page\">\n<header class=\"top\"><span><b>Gap report</b></span><span>" +
      escaped(page.fileName) + "</span><span>" + escaped(page.date) +
      "</span><span class=\"end\">Swingroom " SWINGROOM_VERSION "</span></header>\n<main>\n";
  out += headline(page) + contents(body) + "\n" + body;
  out +=
      "\n</main>\n<footer>Beside this page: report.json, every figure for programs; pairs.csv, the "
      "pairs for a "
      "spreadsheet.</footer>\n</div>\n</body>\n</html>\n";
  return out;
}

}  // namespace swingroom
