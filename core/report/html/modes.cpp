#include "core/report/html/sections.h"
#include "core/report/html/text.h"

namespace swingroom::html {

bool standsStill(const Sequence& way) {
  return way.from == way.to && way.steps.size() == 1 &&
         way.steps.front().start == way.steps.front().end;
}

std::string wayName(const CheckReport& report, std::size_t way) {
  const Sequence& sequence = report.ways.at(way);
  const auto mode = [&](ModeId id) { return escaped(report.loaded->modes.at(id.index).name); };
  if (standsStill(sequence)) return "mode " + mode(sequence.from);
  return escaped(sequence.name) + " (" + mode(sequence.from) + " to " + mode(sequence.to) + ")";
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
