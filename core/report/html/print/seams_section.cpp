#include <algorithm>

#include "core/report/html/print/print_parts.h"
#include "core/report/html/print/print_sections.h"

namespace swingroom::html {
namespace {

constexpr double kSeamLeft = 46, kSeamRight = 424, kSeamTop = 14, kSeamBottom = 128;

/// Gap and step along one line of a seam.
class SeamPicture {
 public:
  SeamPicture(const SeamLine& line, double growthMm) : line_(line), growthMm_(growthMm) {
    for (const SeamPoint& point : line.profile) {
      lowest_ = std::min({lowest_, point.gapMm, point.stepMm});
      highest_ = std::max({highest_, point.gapMm, point.stepMm});
    }
    lowest_ -= 0.08 * (highest_ - lowest_);
    highest_ += 0.08 * (highest_ - lowest_);
  }

  std::string write() const {
    std::string out =
        "<svg class=\"plan\" viewBox=\"0 0 440 158\" role=\"img\"><title>Gap and step along the "
        "seam</title>";
    out += levelLine(0, "axis", "0");
    if (growthMm_ > 0 && growthMm_ < highest_) {
      // Its word only where it does not run into the zero line's or the top's.
      const bool roomy = y(0) - y(growthMm_) > 12 && y(growthMm_) - kSeamTop > 12;
      out += levelLine(growthMm_, "grid", roomy ? "growth" : "");
    }
    out += svgText(kSeamLeft - 6, kSeamTop + 5, "end", fixed(highest_, 2), "s");
    if (lowest_ < -0.02) out += svgText(kSeamLeft - 6, kSeamBottom, "end", fixed(lowest_, 2), "s");
    out += profile("gapline", &SeamPoint::gapMm) + profile("step", &SeamPoint::stepMm);
    out += svgText(kSeamLeft, kSeamBottom + 20, "start", "0", "s");
    return out + svgText(kSeamRight, kSeamBottom + 20, "end",
                         fixed(line_.lengthMm, 1) + " mm along the seam", "s") +
           "</svg>";
  }

 private:
  double y(double mm) const {
    return kSeamBottom - (kSeamBottom - kSeamTop) * (mm - lowest_) / (highest_ - lowest_);
  }
  double x(double alongMm) const {
    return kSeamLeft + (kSeamRight - kSeamLeft) * alongMm / std::max(line_.lengthMm, 1e-6);
  }

  std::string levelLine(double mm, const char* kind, const std::string& word) const {
    return std::string("<path class=\"") + kind + "\" d=\"M" + at(kSeamLeft) + " " + at(y(mm)) +
           "H" + at(kSeamRight) + "\"/>" +
           (word.empty() ? "" : svgText(kSeamLeft - 6, y(mm) + 4, "end", word, "s"));
  }

  std::string profile(const char* kind, double SeamPoint::*figure) const {
    std::string d;
    for (const SeamPoint& point : line_.profile) {
      d += (d.empty() ? "M" : "L") + at(x(point.alongMm)) + " " + at(y(point.*figure));
    }
    return d.empty() ? "" : std::string("<path class=\"") + kind + "\" d=\"" + d + "\"/>";
  }

  const SeamLine& line_;
  double growthMm_ = 0;
  double lowest_ = 0, highest_ = 0.05;
};

std::string lineRow(const SeamLine& line) {
  return "<tr>" + rowHead(line.visible ? "seen" : "not seen") +
         figureCell(figure(rounded(line.lengthMm), 2)) +
         figureCell(figure(rounded(line.leastGapMm), 2)) +
         figureCell(range(roundedDown(line.gapLowerMm), roundedUp(line.gapUpperMm), 2)) +
         figureCell(figure(rounded(line.meanStepMm), 2)) +
         figureCell(figure(rounded(line.largestStepMm), 2)) + "</tr>";
}

/// The one that is widest open, of those that are seen if any is.
const SeamLine& widestOf(const SeamFigure& seam) {
  return *std::max_element(
      seam.lines.begin(), seam.lines.end(), [](const SeamLine& a, const SeamLine& b) {
        return std::pair(a.visible, a.gapUpperMm) < std::pair(b.visible, b.gapUpperMm);
      });
}

std::string seamBlock(const PrintSubject& subject, const SeamFigure& seam) {
  std::string out = subTitle(partPair(subject, seam.a, seam.b) + ", in " +
                             modeName(subject, seam.mode));
  if (seam.lines.empty())
    return out + "<p>No rims face each other within 3 mm: nothing is known of this seam.</p>";
  const SeamLine& widest = widestOf(seam);
  if (!widest.profile.empty()) {
    out += "<figure class=\"panel chart\">" + SeamPicture(widest, seam.growthMm).write() +
           "<figcaption>As modelled: gap (line) and step (dashed), in mm, along the line that is "
           "widest open. Printing takes " +
           figure(rounded(seam.growthMm), 2) + "\u00a0mm off the gap, ±\u00a0" +
           figure(rounded(seam.scatterMm), 2) + "\u00a0mm.</figcaption></figure>";
  }
  std::vector<std::string> rows;
  for (const SeamLine& line : seam.lines) rows.push_back(lineRow(line));
  return out + longTable({{"Line"},
                          {"Length", true},
                          {"Least gap", true},
                          {"Largest gap", true},
                          {"Mean step", true},
                          {"Largest step", true}},
                         rows, 6, "more lines");
}

}  // namespace

std::string seamsSection(const ReportPage& page) {
  const PrintReport& print = *page.report->print;
  if (print.result->seams.seams.empty()) return "";
  std::string blocks;
  for (const SeamFigure& seam : print.result->seams.seams) blocks += seamBlock(*print.subject, seam);
  return sectionOf("print-seams", "Seams",
                   "Where panels should close, in mm as modelled: the gap between the two rims, "
                   "and by how much one face stands above the other.",
                   blocks);
}

}  // namespace swingroom::html
