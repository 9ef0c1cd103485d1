#include <algorithm>
#include <cmath>

#include "core/report/html/marks.h"
#include "core/report/html/sections.h"
#include "core/report/html/text.h"

namespace swingroom::html {
namespace {

constexpr std::size_t kRowsShown = 40;
constexpr int kCells = 80;
constexpr double kWide = 1000;

/// A run of one colour, in instants.
struct Run {
  double from = 0, to = 1;
  std::string kind;
};

std::string rectangle(const Run& run, double height) {
  const double x = std::round(run.from * kWide * 10) / 10;
  // A clash of no length is still seen.
  const double width = std::max(3.0, std::round((run.to - run.from) * kWide * 10) / 10);
  const auto number = [](double value) {
    std::string text = fixed(value, 1);
    if (text.ends_with(".0")) text.resize(text.size() - 2);
    return text;
  };
  const bool hatched = run.kind == "ru";
  return "<rect x=\"" + number(std::min(x, kWide - width)) + "\" width=\"" + number(width) +
         "\" height=\"" + number(height) + "\" " +
         (hatched ? "fill=\"url(#hatch-unproven)\"" : "class=\"" + run.kind + "\"") + "/>";
}

/// r7 at the required gap, r0 from 1.5 mm above it on.
std::string blueFor(double gapMm, double requiredMm) {
  const double share = std::clamp((gapMm - requiredMm) / 1.5, 0.0, 1.0);
  return "r" + std::to_string(7 - static_cast<int>(std::round(7 * share)));
}

class Ribbon {
 public:
  Ribbon(const ReportPage& page, std::size_t way)
      : page_(page),
        report_(*page.report),
        assembly_(report_.loaded->assembly),
        way_(way),
        sequence_(report_.ways[way]),
        result_(report_.results[way]) {}

  std::string write() const {
    std::vector<std::size_t> order(result_.pairs.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return isWorse(a, b); });
    std::size_t near = order.size();
    while (near > 0 && isFar(order[near - 1])) --near;
    std::string out = "<h3 class=\"cause\">" + wayName(report_, way_) +
                      "</h3><div class=\"panel ribbon\">" + head();
    const std::size_t shown = std::min(near, kRowsShown);
    for (std::size_t i = 0; i < shown; ++i) out += row(order[i]);
    if (near > shown) {
      out += "<details><summary>" + std::to_string(near - shown) + " more pairs</summary>";
      for (std::size_t i = shown; i < near; ++i) out += row(order[i]);
      out += "</details>";
    }
    if (order.size() > near) out += farRow(order.size() - near);
    return out + "</div>";
  }

 private:
  bool isFar(std::size_t pair) const {
    return result_.pairs[pair].verdict == Verdict::clear && !result_.pairs[pair].gap.upperMm;
  }

  bool isWorse(std::size_t a, std::size_t b) const {
    const PairResult& left = result_.pairs[a];
    const PairResult& right = result_.pairs[b];
    if (isFar(a) != isFar(b)) return isFar(b);
    if (left.verdict != right.verdict) return left.verdict < right.verdict;
    if (left.verdict == Verdict::clash) return deepestMm(left) > deepestMm(right);
    return left.gap.lowerMm - left.requiredGapMm < right.gap.lowerMm - right.requiredGapMm;
  }

  std::string line(const std::string& label, const std::string& drawing) const {
    return "<div class=\"line\">" + label + drawing + "</div>";
  }

  static std::string svg(const std::string& shapes, const std::string& title) {
    return "<svg viewBox=\"0 0 1000 16\" preserveAspectRatio=\"none\" role=\"img\"><title>" +
           escaped(title) + "</title>" + shapes + "</svg>";
  }

  /// The line from mode to mode, a bead between two steps, and the steps' names.
  std::string head() const {
    const auto modeName = [&](ModeId id) {
      return escaped(report_.loaded->modes.at(id.index).name);
    };
    const auto steps = sequence_.steps.size();
    std::string names, listed;
    for (std::size_t s = 0; s < steps; ++s) {
      const std::string number = std::to_string(s + 1), name = escaped(sequence_.steps[s].name);
      names += "<span><b>" + number + "</b> <span class=\"n\">" + name + "</span></span>";
      listed += (s > 0 ? ", " : "") + std::string("<b>") + number + "</b>\u00a0" + name;
    }
    return "<div class=\"line names-line\"><div class=\"ends\"><span>" + modeName(sequence_.from) +
           "</span><span>" + modeName(sequence_.to) + "</span></div></div>" +
           "<div class=\"line names-line\"><div class=\"track\">" + wayLine(steps) +
           "</div></div>" + "<div class=\"line names-line\"><div class=\"names\">" + names +
           "</div></div>" + "<p class=\"steps\">Steps: " + listed + "</p>";
  }

  /// Circles keep round though the drawing is as wide as the page: they are ends of lines of no
  /// length.
  static std::string wayLine(std::size_t steps) {
    const auto dot = [](double x, const char* style) {
      return "<path d=\"M" + fixed(x, 1) +
             " 8h.01\" vector-effect=\"non-scaling-stroke\" stroke-linecap=\"round\" " +
             std::string("style=\"stroke:") + style + "\"/>";
    };
    std::string out =
        "<svg viewBox=\"0 0 1000 16\" preserveAspectRatio=\"none\" aria-hidden=\"true\">"
        "<path class=\"beads\" d=\"M0 8H1000\" vector-effect=\"non-scaling-stroke\"/>";
    for (std::size_t s = 1; s < steps; ++s) {
      const double x = kWide * static_cast<double>(s) / static_cast<double>(steps);
      out += dot(x, "var(--soft);stroke-width:9") + dot(x, "var(--panel);stroke-width:6");
    }
    for (const double x : {0.0, kWide}) {
      out += dot(x, "var(--ink);stroke-width:16") + dot(x, "var(--panel);stroke-width:11");
    }
    return out + "</svg>";
  }

  std::string row(std::size_t index) const {
    const PairResult& pair = result_.pairs[index];
    const std::string names = assembly_.part(pair.a).name + ", " + assembly_.part(pair.b).name;
    std::string shapes;
    for (const Run& run : runsOf(index)) shapes += rectangle(run, 16);
    const std::string label = "<a class=\"lbl\" href=\"#" + pairAnchor(pair.a, pair.b) + "\">" +
                              mark(pair.verdict) + " " + escaped(names) + "</a>";
    return line(label, svg(shapes, names + ": " + wordFor(pair.verdict)));
  }

  std::string farRow(std::size_t count) const {
    const std::string label = counted(count, "pair", "pairs") + " farther all the way";
    return line("<span class=\"lbl q\">" + label + "</span>",
                svg(rectangle({0, 1, "r0"}, 16), label));
  }

  /// The gap in cells; over it, at their proven instants, the stretches that fail.
  std::vector<Run> runsOf(std::size_t index) const {
    const PairResult& pair = result_.pairs[index];
    std::vector<Run> runs = cells(index);
    if (pair.verdict == Verdict::allowed) return {{0, 1, "ra"}};
    if (pair.verdict == Verdict::loose) addLoose(pair, runs);
    for (const Stretch& stretch : pair.stretches) {
      const char* kind = stretch.verdict == Verdict::clash   ? "rc"
                         : stretch.verdict == Verdict::tight ? "rt"
                                                             : "ru";
      runs.push_back({stretch.from, stretch.to, kind});
    }
    return runs;
  }

  std::vector<Run> cells(std::size_t index) const {
    const PairResult& pair = result_.pairs[index];
    const auto& curve = page_.figures->pairs.at(way_).at(index).curve;
    if (curve.empty()) {
      const double gapMm = pair.gap.upperMm.value_or(pair.requiredGapMm + 1.5);
      return {{0, 1, blueFor(gapMm, pair.requiredGapMm)}};
    }
    std::vector<Run> runs;
    std::size_t next = 0;
    double before = curve.front().gapMm;
    for (int c = 0; c < kCells; ++c) {
      const double from = static_cast<double>(c) / kCells, to = static_cast<double>(c + 1) / kCells;
      double leastMm = before;
      for (; next < curve.size() && curve[next].instant <= to; ++next)
        leastMm = std::min(leastMm, before = curve[next].gapMm);
      const std::string kind = blueFor(leastMm, pair.requiredGapMm);
      if (!runs.empty() && runs.back().kind == kind) {
        runs.back().to = to;
      } else {
        runs.push_back({from, to, kind});
      }
    }
    return runs;
  }

  /// At the modes in which a contact fails; all the way where a joint's fit does.
  void addLoose(const PairResult& pair, std::vector<Run>& runs) const {
    constexpr double kAtMode = 0.03;
    if (pair.joint && pair.joint->verdict == Verdict::loose) runs.push_back({0, 1, "rl"});
    for (const ContactFigure& contact : page_.figures->contacts) {
      if (contact.a != pair.a || contact.b != pair.b || contact.met || !contact.mode) continue;
      if (*contact.mode == sequence_.from) runs.push_back({0, kAtMode, "rl"});
      if (*contact.mode == sequence_.to) runs.push_back({1 - kAtMode, 1, "rl"});
    }
  }

  const ReportPage& page_;
  const CheckReport& report_;
  const Assembly& assembly_;
  std::size_t way_;
  const Sequence& sequence_;
  const SequenceResult& result_;
};

/// What the colours mean.
std::string scale() {
  const auto sample = [](const std::string& shapes, const std::string& words) {
    return "<span><svg viewBox=\"0 0 34 12\" aria-hidden=\"true\">" + shapes + "</svg>" + words +
           "</span>";
  };
  const auto block = [](const std::string& fill) {
    return "<rect width=\"34\" height=\"12\" " + fill + "/>";
  };
  std::string blues;
  for (int i = 0; i < 8; ++i) {
    blues += "<rect x=\"" + fixed(4.25 * i, 2) + "\" width=\"4.25\" height=\"12\" class=\"r" +
             std::to_string(i) + "\"/>";
  }
  return "<p class=\"scale\">" + sample(blues, "from 1.5 mm above the required gap down to it") +
         sample(block("class=\"rt\""), "tight: below it") +
         sample(block("class=\"rc\""), "clash: overlap or touch") +
         sample(block("class=\"rl\""), "loose") +
         sample(block("fill=\"url(#hatch-unproven)\""), "unproven") +
         sample(block("class=\"ra\""), "allowed") + "</p>";
}

}  // namespace

std::string ribbonSection(const ReportPage& page) {
  std::string ribbons;
  for (std::size_t w = 0; w < page.report->ways.size(); ++w) {
    if (!standsStill(page.report->ways[w]) && !page.report->results[w].pairs.empty()) {
      ribbons += Ribbon(page, w).write();
    }
  }
  if (ribbons.empty()) return "";
  return "<section id=\"ribbon\"><h2>Gap ribbon</h2><p class=\"lead\">One row a pair, worst first, "
         "from mode to mode. "
         "Blue deepens as a gap nears what is required.</p>" +
         ribbons + scale() + "</section>";
}

}  // namespace swingroom::html
