#include <cmath>

#include "core/report/html/sections.h"
#include "core/report/html/text.h"

namespace swingroom::html {
namespace {

/// Taken off one part at one point, going into the part.
struct Cut {
  PartId part;
  Vector3d at_W;
  Vector3d into_W;  ///< Unit.
};

std::string told(const ReportPage& page, const Cut& cut, const Configuration& standing) {
  const Assembly& assembly = page.report->loaded->assembly;
  const Pose X_PW = posesOf(assembly, standing)[cut.part.index].inverse();
  return "<dt><b>" + escaped(assembly.part(cut.part).name) + "</b></dt><dd>at " + point(cut.at_W) +
         ", going in along " + point(cut.into_W, 3) + "; in the part’s own frame at " +
         point(X_PW * cut.at_W) + " along " + point(X_PW.linear() * cut.into_W, 3) + "</dd>";
}

/// What gap is wanted where the pair is worst, and which one it has.
struct Want {
  double gapMm = 0;
  const GapBracket* gap = nullptr;
  std::string words;
};

/// Inside a joint's zones the fit counts, half of it a side.
Want wantOf(const Assembly& assembly, const PairResult& pair) {
  if (pair.joint && pair.joint->verdict == pair.verdict) {
    const Joint& joint = assembly.joint(pair.joint->joint);
    const bool outsideToo = pair.verdict == Verdict::tight && pair.gap.lowerMm < pair.requiredGapMm;
    if (joint.fitMm && *joint.fitMm > 0 && !outsideToo) {
      return {
          *joint.fitMm / 2, &pair.joint->gap,
          "the fit of " + escaped(joint.name) + ", " + millimetres(*joint.fitMm / 2) + " a side"};
    }
  }
  return {pair.requiredGapMm, &pair.gap, millimetres(pair.requiredGapMm)};
}

/// At least this much, so rounded up to two decimals; 0.0001 mm more would not be missed.
double amountMm(const PairResult& pair, const Want& want) {
  const double missing = pair.verdict == Verdict::clash
                             ? rounded(deepestMm(pair)) + want.gapMm
                             : want.gapMm - roundedDown(want.gap->lowerMm);
  return std::ceil((missing - 1e-4) * 100) / 100;
}

}  // namespace

std::string shaveAdvice(const ReportPage& page, const Occurrence& where) {
  const CheckReport& report = *page.report;
  const PairResult& pair = resultOf(report, where);
  const bool deep = pair.verdict == Verdict::clash && deepestMm(pair) > 0;
  const Want want = wantOf(report.loaded->assembly, pair);
  const GapBracket& gap = deep ? pair.gap : *want.gap;
  if ((!deep && pair.verdict != Verdict::tight) || !gap.points_W || !gap.instant) return "";
  const auto& [first, second] = *gap.points_W;
  const Vector3d apart = second - first;
  if (apart.norm() < 1e-9) return "";
  const Vector3d direction = apart.normalized();
  // A gap: each point lies on its part, and material goes away from the other. An overlap: the
  // first point lies on the part that reaches in, the second on the other's boundary, and both are
  // cut towards each other.
  Cut ofA{pair.a, first, -direction}, ofB{pair.b, second, direction};
  if (deep) {
    const auto side = page.figures->pairs.at(where.way).at(where.pair).deepPointOn;
    if (side == DeepPointOn::unknown) return "";
    const bool onA = side == DeepPointOn::a;
    ofA = {pair.a, onA ? first : second, onA ? direction : Vector3d(-direction)};
    ofB = {pair.b, onA ? second : first, onA ? Vector3d(-direction) : direction};
  }
  const Configuration standing =
      configurationAt(report.loaded->assembly, report.ways[where.way], *gap.instant);
  return "<div class=\"shave\"><p>To keep " + want.words + ", take <b>" +
         millimetres(amountMm(pair, want)) +
         "</b> off either part, or share it between them:</p><dl class=\"nums\">" +
         told(page, ofA, standing) + told(page, ofB, standing) +
         "</dl><p class=\"soft\">The least that helps at this one place and instant; others may "
         "then be the nearest. "
         "Check again after the change.</p></div>";
}

}  // namespace swingroom::html
