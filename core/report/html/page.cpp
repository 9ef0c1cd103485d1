#include "core/report/html/page.h"

#include "core/report/html/marks.h"
#include "core/report/html/sections.h"
#include "core/report/html/style.h"
#include "core/report/html/text.h"

namespace swingroom {
namespace {

/// Links to the sections that the page has.
std::string contents(const std::string& body) {
  std::string out = "<nav aria-label=\"Contents\">";
  for (const auto& [id, name] : {std::pair{"variants", "Variants"},
                                 {"modes", "Modes"},
                                 {"findings", "Findings"},
                                 {"ribbon", "Gap ribbon"},
                                 {"pairs", "Pairs"},
                                 {"zones", "Joint zones"},
                                 {"contacts", "Contacts"},
                                 {"allowed", "Allowed pairs"},
                                 {"settings", "Settings and files"},
                                 {"limits", "Not looked at"},
                                 {"cautions", "Cautions"}}) {
    const bool has = body.find(std::string("<section id=\"") + id + "\"") != std::string::npos;
    if (has) out += std::string("<a href=\"#") + id + "\">" + name + "</a>";
  }
  return out + "</nav>";
}

}  // namespace

std::string toHtml(const ReportPage& page) {
  using namespace html;
  std::string body = variantsSection(page) + modesSection(page) + findingsSection(page) + ribbonSection(page) +
                     pairsSection(page) + zonesSection(page) + contactsSection(page) +
                     settingsSection(page) + limitsSection(page) + cautionsSection();
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
