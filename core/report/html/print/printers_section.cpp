#include <cmath>

#include "core/report/html/print/print_parts.h"
#include "core/report/html/print/print_sections.h"

namespace swingroom::html {
namespace {

constexpr double kChartLeft = 52, kChartRight = 424, kChartTop = 14, kChartBottom = 190;

double chartX(double growthMm) {
  return kChartLeft +
         (kChartRight - kChartLeft) * (growthMm - kLeastGrowthMm) / (kMostGrowthMm - kLeastGrowthMm);
}
double chartY(double scale) {
  return kChartBottom -
         (kChartBottom - kChartTop) * (scale - kLeastScale) / (kMostScale - kLeastScale);
}

std::string chartLine(const char* kind, double x1, double y1, double x2, double y2) {
  return std::string("<path class=\"") + kind + "\" d=\"M" + at(x1) + " " + at(y1) + "L" + at(x2) +
         " " + at(y2) + "\"/>";
}

std::string chartAxes() {
  std::string out;
  for (const double scale : {0.8, 0.9, 1.0, 1.1, 1.2}) {
    out += chartLine(scale == 1.0 ? "axis" : "grid", kChartLeft, chartY(scale), kChartRight,
                     chartY(scale));
    out += svgText(kChartLeft - 6, chartY(scale) + 4, "end", fixed(100 * scale, 0) + " %", "s");
  }
  for (const double growth : {-0.1, 0.0, 0.1, 0.2, 0.3}) {
    out += chartLine(growth == 0.0 ? "axis" : "grid", chartX(growth), kChartTop, chartX(growth),
                     kChartBottom);
    out += svgText(chartX(growth), kChartBottom + 16, "middle", fixed(growth, 1), "s");
  }
  return out + svgText(kChartRight, kChartBottom + 32, "end", "growth of a printed face, mm a side",
                       "s");
}

std::string regionPath(const PrinterWindow& window) {
  std::string d;
  for (const auto& corner : window.region) {
    d += (d.empty() ? "M" : "L") + at(chartX(corner.x())) + " " + at(chartY(corner.y()));
  }
  return d.empty() ? "" : "<path class=\"area\" d=\"" + d + "Z\"/>";
}

std::string chartSvg(const PrinterWindow& window) {
  std::string out =
      "<svg class=\"plan\" viewBox=\"0 0 440 228\" role=\"img\"><title>Growth and scale at which "
      "gaps and fits pass</title>" +
      chartAxes() + regionPath(window);
  if (!window.growthMm.empty) {
    out += chartLine("run", chartX(window.growthMm.from), chartY(1), chartX(window.growthMm.to),
                     chartY(1));
  }
  const double x = chartX(window.expectedGrowthMm), y = chartY(1);
  out += "<circle class=\"dot\" cx=\"" + at(x) + "\" cy=\"" + at(y) + "\" r=\"4.5\"/>";
  return out + svgText(x, y - 10, "middle", "this process") + "</svg>";
}

std::string limitWords(const std::string& limit) {
  return limit.empty() ? "the end of what was looked at" : escaped(limit);
}

std::string growthFact(const PrinterSpan& span) {
  if (span.empty) return "<dt>Growth</dt><dd>none at full scale passes</dd>";
  return "<dt>Growth at full scale</dt><dd><b>" + range(rounded(span.from), rounded(span.to), 3) +
         "\u00a0mm</b> a side<br><span class=\"soft\">less: " + limitWords(span.fromLimit) +
         "; more: " + limitWords(span.toLimit) + "</span></dd>";
}

std::string scaleFact(const PrinterWindow& window) {
  const std::string name = "Scale at " + fixed(window.expectedGrowthMm, 3) + "\u00a0mm of growth";
  const PrinterSpan& span = window.scale;
  if (span.empty) return "<dt>" + name + "</dt><dd>none passes</dd>";
  return "<dt>" + name + "</dt><dd><b>" + fixed(100 * span.from, 0) + " to " +
         fixed(100 * span.to, 0) + "\u00a0%</b><br><span class=\"soft\">smaller: " +
         limitWords(span.fromLimit) + "; larger: " + limitWords(span.toLimit) + "</span></dd>";
}

}  // namespace

std::string printersSection(const ReportPage& page) {
  const PrinterWindow& window = page.report->print->result->printers;
  if (window.limits.empty()) return "";
  const std::string caption =
      window.region.empty() ? "No printer that was looked at keeps all of it."
                            : "In the filled region every gap and fit is kept.";
  return sectionOf(
      "print-printers", "Printers that pass",
      "How much a printer may grow faces, and at which scales of the whole figure, before a gap "
      "closes, a joint binds or flops, or a pressed pin falls out. Growth is taken as the same on "
      "all faces, without the scatter from print to print.",
      "<figure class=\"panel chart\">" + chartSvg(window) + "<figcaption>" + caption +
          "</figcaption></figure><dl class=\"facts\">" + growthFact(window.growthMm) +
          scaleFact(window) + "</dl>");
}

}  // namespace swingroom::html
