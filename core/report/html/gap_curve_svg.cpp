#include "core/report/html/gap_curve_svg.h"

#include <algorithm>
#include <cmath>

#include "core/report/html/text.h"

namespace swingroom::html {
namespace {

constexpr double kWidth = 440, kHeight = 216;
constexpr double kLeft = 54, kRight = 370, kTop = 14, kBottom = 158;  ///< The plot's box.
constexpr double kLineY = 172;         ///< The way's line with its beads.
constexpr double kNarrowScale = 1.45;  ///< Letters are this much larger on narrow screens.
constexpr double kLetter = 5.6;        ///< Width of one at 10.5 px.

/// A point of a path, to a tenth of a pixel and without trailing zeros.
std::string xy(double x, double y) {
  const auto number = [](double value) {
    std::string text = fixed(value, 1);
    if (text.ends_with(".0")) text.resize(text.size() - 2);
    return text;
  };
  return number(x) + " " + number(y);
}

class CurveWriter {
 public:
  explicit CurveWriter(const CurveDrawing& drawing) : drawing_(drawing) {
    double lowest = 0, highest = 0;
    for (const GapSample& sample : drawing.samples) {
      lowest = std::min(lowest, sample.gapMm);
      highest = std::max(highest, sample.gapMm);
    }
    topMm_ = std::max(std::min(drawing.capMm, highest), 1.25 * drawing.requiredMm);
    // A deep overlap must not squeeze the gaps that are judged into a line, nor the other way
    // round.
    topMm_ = std::max(topMm_, 0.25 * -lowest);
    if (topMm_ <= 0) topMm_ = 1;
    bottomMm_ = lowest < 0 ? std::min(1.12 * lowest, -0.12 * topMm_) : -0.06 * topMm_;
  }

  std::string write() {
    out_ = "<svg class=\"curve\" viewBox=\"0 0 440 216\" role=\"img\"><title>" +
           escaped(drawing_.title) + "</title>";
    addUnproven();
    addAxes();
    addCurve();
    addNeedle();
    addWay();
    return out_ + "</svg>";
  }

 private:
  double x(double instant) const { return kLeft + (kRight - kLeft) * instant; }
  double y(double mm) const {
    const double within = std::clamp(mm, bottomMm_, topMm_);
    return kTop + (kBottom - kTop) * (topMm_ - within) / (topMm_ - bottomMm_);
  }

  void line(const char* kind, double x1, double y1, double x2, double y2) {
    out_ +=
        std::string("<path class=\"") + kind + "\" d=\"M" + xy(x1, y1) + "L" + xy(x2, y2) + "\"/>";
  }
  void words(const char* kind, const char* anchor, double atX, double atY,
             const std::string& text) {
    out_ += std::string("<text class=\"") + kind + "\" text-anchor=\"" + anchor + "\" x=\"" +
            fixed(atX, 1) + "\" y=\"" + fixed(atY, 1) + "\">" + escaped(text) + "</text>";
  }

  void addUnproven() {
    for (const Stretch& stretch : drawing_.unproven) {
      const double width = std::max(1.5, x(stretch.to) - x(stretch.from));
      out_ += "<rect fill=\"url(#hatch-unproven)\" opacity=\".5\" x=\"" +
              fixed(x(stretch.from), 1) + "\" y=\"" + fixed(kTop, 1) + "\" width=\"" +
              fixed(width, 1) + "\" height=\"" + fixed(kBottom - kTop, 1) + "\"/>";
    }
  }

  void addAxes() {
    const auto steps = drawing_.steps.size();
    for (std::size_t s = 1; s < steps; ++s) {
      const double at = x(static_cast<double>(s) / static_cast<double>(steps));
      line("ax", at, kTop, at, kBottom);
    }
    line("zero", kLeft, y(0), kRight, y(0));
    words("s", "end", kLeft - 6, y(0) + 3.5, "0");
    const bool capped = topMm_ >= drawing_.capMm - 1e-9;
    // The topmost label only where it does not run into the zero line's.
    if (y(0) - kTop > 16)
      words("s", "end", kLeft - 6, kTop + 6, (capped ? "≥" : "") + fixed(topMm_, 2));
    if (bottomMm_ < 0 && kBottom - y(0) > 22)
      words("s", "end", kLeft - 6, kBottom, fixed(bottomMm_, 2));
    if (drawing_.requiredMm <= 0) return;
    out_ += "<path class=\"short\" d=\"M" + xy(kLeft, y(0)) + "H" + fixed(kRight, 1) + "V" +
            fixed(y(drawing_.requiredMm), 1) + "H" + fixed(kLeft, 1) + "Z\"/>";
    line("need", kLeft, y(drawing_.requiredMm), kRight, y(drawing_.requiredMm));
    words("s", "start", kRight + 6, y(drawing_.requiredMm) - 1, "required");
    out_ += "<text class=\"s\" x=\"" + fixed(kRight + 6, 1) + "\" y=\"" +
            fixed(y(drawing_.requiredMm) - 1, 1) + "\" dy=\"1.1em\">" +
            fixed(drawing_.requiredMm, 2) + "</text>";
  }

  /// The curve above zero as one line; each run below it as a hatched area with its own edge.
  void addCurve() {
    std::string above, below, edges;
    const auto& samples = drawing_.samples;
    bool inside = false;
    for (std::size_t i = 0; i < samples.size(); ++i) {
      const GapSample& now = samples[i];
      const bool deep = now.gapMm < 0;
      double cross = now.instant;
      if (i > 0 && deep != inside) {
        const GapSample& before = samples[i - 1];
        cross = before.instant +
                (now.instant - before.instant) * before.gapMm / (before.gapMm - now.gapMm);
      }
      if (deep && !inside) {
        if (i > 0) above += "L" + xy(x(cross), y(0));
        below += "M" + xy(x(cross), y(0));
        edges += "M" + xy(x(cross), y(0));
      }
      if (!deep && inside) {
        below += "L" + xy(x(cross), y(0)) + "Z";
        edges += "L" + xy(x(cross), y(0));
        above += "M" + xy(x(cross), y(0));
      }
      const std::string at = xy(x(now.instant), y(now.gapMm));
      if (deep) {
        below += "L" + at;
        edges += "L" + at;
      } else {
        above += (above.empty() ? "M" : "L") + at;
      }
      inside = deep;
    }
    if (inside) below += "L" + xy(x(samples.back().instant), y(0)) + "Z";
    if (!below.empty()) {
      out_ += "<path fill=\"url(#hatch-clash)\" d=\"" + below + "\"/>";
      out_ += "<path class=\"deep\" fill=\"none\" d=\"" + edges + "\"/>";
    }
    if (above.starts_with("M")) out_ += "<path class=\"gap\" d=\"" + above + "\"/>";
  }

  void addNeedle() {
    if (!drawing_.needle) return;
    const double at = x(*drawing_.needle);
    line("needle", at, kTop - 8, at, kLineY);
  }

  void addWay() {
    line("zero", kLeft, kLineY, kRight, kLineY);
    const auto steps = static_cast<double>(drawing_.steps.size());
    for (std::size_t s = 0; s < drawing_.steps.size(); ++s) {
      const double from = x(static_cast<double>(s) / steps),
                   to = x(static_cast<double>(s + 1) / steps);
      if (s > 0) bead("bead", from, 3);
      addStepName(s, from, to);
    }
    bead("end", kLeft, 5);
    bead("end", kRight, 5);
    if (drawing_.needle) {
      const double at = x(*drawing_.needle);
      out_ += "<path class=\"tip\" d=\"M" + xy(at, kLineY - 6) + "L" + xy(at + 6, kLineY) + "L" +
              xy(at, kLineY + 6) + "L" + xy(at - 6, kLineY) + "Z\"/>";
    }
    words("b", "start", kLeft - 5, kHeight - 2,
          shortened(drawing_.from, 0.5 * (kRight - kLeft) - 10));
    words("b", "end", kRight + 5, kHeight - 2, shortened(drawing_.to, 0.5 * (kRight - kLeft) - 10));
  }

  void bead(const char* kind, double atX, double radius) {
    out_ += std::string("<circle class=\"") + kind + "\" cx=\"" + fixed(atX, 1) + "\" cy=\"" +
            fixed(kLineY, 1) + "\" r=\"" + fixed(radius, 1) + "\"/>";
  }

  /// With its name where there is room; else with its number alone, which the list of steps
  /// explains.
  void addStepName(std::size_t step, double from, double to) {
    const std::string number = std::to_string(step + 1);
    const double wide =
        kLetter * static_cast<double>(number.size() + 1 + drawing_.steps[step].size());
    out_ += "<text class=\"s\" text-anchor=\"middle\" x=\"" + fixed(0.5 * (from + to), 1) +
            "\" y=\"" + fixed(kLineY + 6, 1) + "\" dy=\"1.05em\">" + number;
    if (wide < to - from - 4) {
      const bool roomy = kNarrowScale * wide < to - from - 4;
      out_ += std::string("<tspan") + (roomy ? "" : " class=\"n\"") + "> " +
              escaped(drawing_.steps[step]) + "</tspan>";
    }
    out_ += "</text>";
  }

  static std::string shortened(const std::string& text, double width) {
    const auto most = static_cast<std::size_t>(width / kLetter);
    if (text.size() <= most) return text;
    std::size_t end = most - 1;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0u) == 0x80u) --end;
    return text.substr(0, end) + "…";
  }

  const CurveDrawing& drawing_;
  double topMm_ = 1, bottomMm_ = 0;
  std::string out_;
};

}  // namespace

std::string gapCurveSvg(const CurveDrawing& drawing) {
  return CurveWriter(drawing).write();
}

}  // namespace swingroom::html
