#include "core/report/words.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "core/report/findings.h"

namespace swingroom::words {

std::string fixed(double value, int decimals) {
  // Rounded as a decimal that was already rounded once, so that 0.125 and its neighbours go up.
  const double scale = std::pow(10.0, decimals);
  double whole = std::round(value * scale);
  if (whole == 0) whole = 0;
  char text[64];
  const auto end = std::to_chars(text, text + sizeof text, std::abs(whole) / scale,
                                 std::chars_format::fixed, decimals)
                       .ptr;
  return (whole < 0 ? "-" : "") + std::string(text, end);
}

std::string shortest(double value) {
  char text[64];
  return std::string(text, std::to_chars(text, text + sizeof text, value).ptr);
}

std::string millimetres(double mm, int decimals) {
  return fixed(mm, decimals) + "\u00a0mm";
}

std::string point(const Vector3d& p, int decimals) {
  return "(" + fixed(p.x(), decimals) + ", " + fixed(p.y(), decimals) + ", " +
         fixed(p.z(), decimals) + ")";
}

std::string gapFigure(double gapMm, double requiredMm) {
  int decimals = 2;
  while (decimals < 5 && fixed(gapMm, decimals) == fixed(requiredMm, decimals) &&
         std::abs(gapMm - requiredMm) > 1e-5) {
    ++decimals;
  }
  return millimetres(gapMm, decimals);
}

std::string bracket(double lowerMm, const std::optional<double>& upperMm) {
  const double lower = std::floor(roundedDown(lowerMm) * 1000 + 1e-6) / 1000;
  if (!upperMm) return "more than " + millimetres(lower);
  const double upper = std::ceil(roundedUp(*upperMm) * 1000 - 1e-6) / 1000;
  if (lower == upper) return millimetres(lower, 3);
  return "between " + fixed(lower, 3) + " and " + millimetres(upper, 3);
}

std::string bracket(const GapBracket& gap) {
  return bracket(gap.lowerMm, gap.upperMm);
}

std::string jointValue(const Joint& joint, const JointValue& value) {
  if (joint.type == JointType::ball) return point(value * degFromRad(1), 1) + "°";
  if (joint.type == JointType::hinge) return fixed(degFromRad(value.x()), 1) + "°";
  return millimetres(value.x());
}

std::string combinationText(const Assembly& assembly, const std::vector<JointStand>& combination) {
  std::string text;
  for (const JointStand& stand : combination) {
    const Joint& joint = assembly.joint(stand.joint);
    text += (text.empty() ? "" : ", ") + joint.name + " at " + jointValue(joint, stand.value);
  }
  return text;
}

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

Figure findingFigure(const Assembly& assembly, const PairResult& pair) {
  const double depthMm = rounded(deepestMm(pair));
  const bool allowedOverlap = pair.verdict == Verdict::allowed && depthMm > 0;
  if (pair.verdict == Verdict::clash || allowedOverlap) {
    if (depthMm > 0) return {"", depthMm, millimetres(depthMm, depthMm < 0.005 ? 4 : 2), " deep"};
    const bool known =
        std::any_of(pair.stretches.begin(), pair.stretches.end(),
                    [](const Stretch& stretch) { return stretch.depthMm.has_value(); });
    return {known ? "touching" : "crossing, depth not known", {}, "", ""};
  }
  if (pair.verdict == Verdict::loose && pair.joint && pair.joint->verdict == Verdict::loose) {
    const double lowerMm = roundedDown(pair.joint->gap.lowerMm);
    return {"at least ", lowerMm, millimetres(lowerMm),
            " apart in " + assembly.joint(pair.joint->joint).name};
  }
  const GapBracket& gap = isInJoint(pair) ? pair.joint->gap : pair.gap;
  if (!gap.upperMm) {
    return {"at least ", roundedDown(gap.lowerMm), millimetres(roundedDown(gap.lowerMm)), ""};
  }
  const double upperMm = roundedUp(*gap.upperMm);
  return {"", upperMm, gapFigure(upperMm, pair.requiredGapMm), " apart"};
}

bool standsStill(const Sequence& way) {
  return way.from == way.to && way.steps.size() == 1 &&
         way.steps.front().start == way.steps.front().end;
}

std::string wayName(const std::vector<Mode>& modes, const Sequence& way) {
  const std::string& from = modes.at(way.from.index).name;
  if (standsStill(way)) return "mode " + from;
  return way.name + " (" + from + " to " + modes.at(way.to.index).name + ")";
}

std::string stepPhrase(std::size_t number, const std::string& name) {
  const std::string counted = "step " + std::to_string(number);
  return name == counted ? counted : counted + " " + name;
}

std::string whereInWay(const std::vector<Mode>& modes, const Sequence& way, double instant) {
  if (way.from == way.to && way.steps.size() == 1) {
    return "in mode " + modes.at(way.from.index).name;
  }
  const StepInstant at = stepAt(way, instant);
  return stepPhrase(at.step + 1, way.steps[at.step].name) + ", instant " + fixed(instant, 4);
}

std::string whereWorst(const std::vector<Mode>& modes, const Sequence& way,
                       const PairResult& pair) {
  const double instant = worstInstant(pair);
  if (pair.gap.combination.empty()) return whereInWay(modes, way, instant);
  const StepInstant at = stepAt(way, instant);
  return stepPhrase(at.step + 1, way.steps[at.step].name) + ", in another order";
}

}  // namespace swingroom::words
