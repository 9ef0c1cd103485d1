#include "core/report/html/sections.h"
#include "core/report/html/text.h"

namespace swingroom::html {

std::string wayName(const CheckReport& report, std::size_t way) {
  return escaped(words::wayName(report.loaded->modes, report.ways.at(way)));
}

std::string modesSection(const ReportPage& page) {
  const auto& modes = page.report->loaded->modes;
  if (modes.empty()) return "";
  std::string out = "<section id=\"modes\"><h2>Modes</h2><div class=\"modes\">";
  for (std::size_t m = 0; m < modes.size(); ++m) {
    out += "<figure class=\"panel\">";
    if (m < page.pictures.modes.size()) out += page.pictures.modes[m];
    out += "<figcaption>" + escaped(modes[m].name) + "</figcaption></figure>";
  }
  return out + "</div></section>";
}

}  // namespace swingroom::html
