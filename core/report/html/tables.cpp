#include <algorithm>
#include <cmath>
#include <map>

#include "core/report/html/marks.h"
#include "core/report/html/sections.h"
#include "core/report/html/text.h"

namespace swingroom::html {
namespace {

/// A gap in a narrow cell: its upper bound, "> 1.80", "overlap".
std::string cell(double lowerMm, const std::optional<double>& upperMm, double requiredMm) {
  if (!upperMm)
    return "<td class=\"n q\">&gt;\u00a0" + fixed(std::floor(roundedDown(lowerMm) * 100) / 100, 2) +
           "</td>";
  if (*upperMm <= 0) return "<td class=\"n\">0</td>";
  std::string figure = gapFigure(roundedUp(*upperMm), requiredMm);
  figure.resize(figure.find("\u00a0"));
  return "<td class=\"n\">" + data(roundedUp(*upperMm), figure) + "</td>";
}

class PairTable {
 public:
  explicit PairTable(const ReportPage& page)
      : report_(*page.report), worst_(worstOfPairs(report_)) {
    for (std::size_t w = 0; w < report_.ways.size(); ++w) {
      if (!standsStill(report_.ways[w])) ways_.push_back(w);
    }
  }

  std::string write() const {
    std::vector<std::size_t> near, far;
    for (std::size_t p = 0; p < worst_.size(); ++p) (isFar(p) ? far : near).push_back(p);
    std::string out;
    if (!near.empty()) out += table(near);
    if (!far.empty()) {
      out += "<details><summary>" + counted(far.size(), "pair that stays", "pairs that stay") +
             " more than 1.5 mm above the required gap everywhere</summary>" + table(far) +
             "</details>";
    }
    return out;
  }

 private:
  bool isFar(std::size_t pair) const {
    if (worst_[pair] != Verdict::clear) return false;
    return std::all_of(
        report_.results.begin(), report_.results.end(),
        [&](const SequenceResult& result) { return !result.pairs[pair].gap.upperMm; });
  }

  std::string table(const std::vector<std::size_t>& pairs) const {
    std::string out = "<div class=\"scroll panel\"><table><thead><tr><th scope=\"col\">Pair</th>";
    for (const Mode& mode : report_.loaded->modes)
      out += "<th scope=\"col\" class=\"n\">" + escaped(mode.name) + "</th>";
    for (const std::size_t way : ways_) {
      out += "<th scope=\"col\" class=\"n\">least, " + escaped(report_.ways[way].name) + "</th>";
    }
    out +=
        "<th scope=\"col\" class=\"n\">Required</th><th "
        "scope=\"col\">Verdict</th></tr></thead><tbody>";
    for (const std::size_t pair : pairs) out += row(pair);
    return out + "</tbody></table></div>";
  }

  std::string row(std::size_t index) const {
    const PairResult& pair = report_.results.front().pairs[index];
    const Assembly& assembly = report_.loaded->assembly;
    std::string out = "<tr id=\"" + pairAnchor(pair.a, pair.b) + "\"><th scope=\"row\">" +
                      escaped(assembly.part(pair.a).name) + ", " +
                      escaped(assembly.part(pair.b).name) + "</th>";
    for (const ModeGap& gap : pair.modes) out += cell(gap.lowerMm, gap.upperMm, pair.requiredGapMm);
    for (const std::size_t way : ways_) {
      const GapBracket& gap = report_.results[way].pairs[index].gap;
      const double depthMm = rounded(deepestMm(report_.results[way].pairs[index]));
      if (depthMm > 0) {
        out += "<td class=\"n\">" + data(depthMm, fixed(depthMm, 2)) + " deep</td>";
      } else {
        out += cell(gap.lowerMm, gap.upperMm, pair.requiredGapMm);
      }
    }
    return out + "<td class=\"n\">" + fixed(pair.requiredGapMm, 2) + "</td><td>" +
           markAndWord(worst_[index]) + "</td></tr>";
  }

  const CheckReport& report_;
  std::vector<Verdict> worst_;
  std::vector<std::size_t> ways_;
};

}  // namespace

std::string pairsSection(const ReportPage& page) {
  if (page.report->results.empty() || page.report->results.front().pairs.empty()) return "";
  return "<section id=\"pairs\"><h2>Pairs</h2><p class=\"lead\">Gaps in mm outside joint zones: in "
         "each mode, and the "
         "least on each way with both its ends. A figure is the bracket’s upper bound, at most " +
         shortest(page.report->resolutionMm) + "\u00a0mm" + " above the true gap.</p>" +
         PairTable(page).write() + "</section>";
}

namespace {

/// A joint's zones over all ways: where it is worst.
struct ZoneRow {
  const PairResult* pair = nullptr;
  std::size_t way = 0;
};

/// By joint, in file order.
std::map<JointId, ZoneRow> zoneRows(const CheckReport& report) {
  std::map<JointId, ZoneRow> rows;
  for (std::size_t w = 0; w < report.results.size(); ++w) {
    for (const PairResult& pair : report.results[w].pairs) {
      if (!pair.joint) continue;
      ZoneRow& row = rows[pair.joint->joint];
      const JointResult* known = row.pair ? &*row.pair->joint : nullptr;
      const bool worse =
          !known || pair.joint->verdict < known->verdict ||
          (pair.joint->verdict == known->verdict && pair.joint->gap.lowerMm < known->gap.lowerMm);
      if (worse) row = {&pair, w};
    }
  }
  return rows;
}

}  // namespace

std::string zonesSection(const ReportPage& page) {
  const CheckReport& report = *page.report;
  const Assembly& assembly = report.loaded->assembly;
  std::string rows;
  for (const auto& [id, row] : zoneRows(report)) {
    const PairResult& pair = *row.pair;
    const Joint& joint = assembly.joint(id);
    const bool deep = pair.joint->verdict == Verdict::clash;
    rows += "<tr><th scope=\"row\">" + escaped(joint.name) + "</th><td>" +
            escaped(assembly.part(pair.a).name) + ", " + escaped(assembly.part(pair.b).name) +
            "</td><td class=\"n\">" +
            data(rounded(pair.joint->excusedAreaMm2), fixed(pair.joint->excusedAreaMm2, 1)) +
            "</td><td class=\"n\">" + (joint.fitMm ? fixed(*joint.fitMm, 3) : std::string("none")) +
            "</td><td>" + (deep ? "overlap" : bracket(pair.joint->gap)) + "</td><td>" +
            wayName(report, row.way) + "</td><td>" + markAndWord(pair.joint->verdict) +
            "</td></tr>";
  }
  if (rows.empty()) return "";
  return "<section id=\"zones\"><h2>Joint zones</h2><p class=\"lead\">Where two parts touch by "
         "design. "
         "Surface inside is judged by the joint’s fit (mm on the diameter), not by the required "
         "gap; the "
         "gap is a side, the least of all ways.</p><div class=\"scroll panel\"><table><thead><tr>"
         "<th scope=\"col\">Joint</th><th scope=\"col\">Parts</th>"
         "<th scope=\"col\" class=\"n\">Excused area, mm²</th><th scope=\"col\" "
         "class=\"n\">Fit</th>"
         "<th scope=\"col\">Gap inside, a side</th><th scope=\"col\">Least in</th>"
         "<th scope=\"col\">Verdict</th></tr></thead><tbody>" +
         rows + "</tbody></table></div></section>";
}

}  // namespace swingroom::html
