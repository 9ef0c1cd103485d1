#include "core/report/html/text.h"

#include <charconv>
#include <cmath>

#include "core/files/printable.h"

namespace swingroom::html {

std::string escaped(std::string_view text) {
  constexpr std::size_t kMostBytes = 4000;
  std::string out;
  for (const char c : printable(text, kMostBytes)) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

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

std::string data(double value, const std::string& shown) {
  return "<data value=\"" + shortest(value) + "\">" + shown + "</data>";
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

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

std::string pairNames(const Assembly& assembly, PartId a, PartId b) {
  return "<b>" + escaped(assembly.part(a).name) + "</b> and <b>" + escaped(assembly.part(b).name) +
         "</b>";
}

std::string pairAnchor(PartId a, PartId b) {
  return "pair-" + std::to_string(a.index + 1) + "-" + std::to_string(b.index + 1);
}

std::string whereInWay(const CheckReport& report, std::size_t way, double instant) {
  const Sequence& sequence = report.ways.at(way);
  if (sequence.from == sequence.to && sequence.steps.size() == 1) {
    return "in mode " + escaped(report.loaded->modes.at(sequence.from.index).name);
  }
  const StepInstant at = stepAt(sequence, instant);
  return "step " + std::to_string(at.step + 1) + " " + escaped(sequence.steps[at.step].name) +
         ", instant " + fixed(instant, 4);
}

}  // namespace swingroom::html
