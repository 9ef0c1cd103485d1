#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>
#include <optional>

#include "core/print/weight/weight_check.h"

namespace swingroom {
namespace {

/// The usual test slope for toys (from memory).
constexpr double kTestSlopeRad = radFromDeg(10);

std::string weightText(const char* format, double value) {
  char text[64];
  std::snprintf(text, sizeof text, format, value);
  return text;
}

/// Small figures as small figures: 0.042, 0.42, 42.
std::string figureText(double value) {
  if (std::abs(value) < 0.1) return weightText("%.3f", value);
  return weightText(std::abs(value) < 10 ? "%.2f" : "%.1f", value);
}

class WeightFindings {
 public:
  WeightFindings(const PrintSubject& subject, const WeightResult& result, PrintFindings& findings)
      : subject_(subject), result_(result), findings_(findings) {}

  void add() {
    for (const ModeWeight& mode : result_.modes) {
      addStanding(mode);
      for (const JointHold& hold : mode.joints) addHold(mode, hold);
    }
    addBetween();
  }

 private:
  void addStanding(const ModeWeight& mode) {
    const FigureStand& standing = mode.standing;
    if (standing.kind == StandKind::unknown) return;
    PrintFinding finding;
    finding.mode = mode.mode;
    finding.unit = "mm";
    finding.lower = standing.marginMm - standing.marginOffMm;
    finding.upper = standing.marginMm + standing.marginOffMm;
    finding.needed = 0;
    if (standing.kind == StandKind::stands) {
      if (standing.leastTipRad >= kTestSlopeRad && finding.lower > 0) return;
      finding.word = PrintWord::nearlyFalls;
      finding.grade = PrintGrade::hint;
      // Told by the slope, which is what it is held against.
      finding.unit = "deg";
      finding.lower = degFromRad(std::atan2(finding.lower, standing.heightMm));
      finding.upper = degFromRad(std::atan2(finding.upper, standing.heightMm));
      finding.needed = degFromRad(kTestSlopeRad);
      finding.sentence = "it tips over " + wayWord(standing.falls_W) + " on a slope of " +
                         weightText("%.1f", degFromRad(standing.leastTipRad)) +
                         " degrees; its weight is " + weightText("%.2f", standing.marginMm) +
                         " mm inside the edge";
    } else {
      finding.word = PrintWord::fallsOver;
      finding.sentence = fallsSentence(standing);
    }
    for (const PartId part : standing.on) {
      if (finding.parts.size() < 2) finding.parts.push_back(part);
    }
    if (standing.on.size() > 2) finding.parts.clear();
    findings_.push_back(finding);
  }

  static std::string fallsSentence(const FigureStand& standing) {
    if (standing.kind == StandKind::onEdge)
      return "it touches the floor in one line only and tips over";
    if (standing.kind == StandKind::onPoint)
      return "it touches the floor in one point only and tips over";
    return "it falls over " + wayWord(standing.falls_W) + ": its weight is " +
           weightText("%.2f", -standing.marginMm) + " mm outside of what it stands on";
  }

  bool slides(JointId joint) const {
    return subject_.assembly->joint(joint).type == JointType::slide;
  }
  const char* unitOf(JointId joint) const { return slides(joint) ? "N" : "N mm"; }

  void addHold(const ModeWeight& mode, const JointHold& hold) {
    if (hold.kind != HoldKind::droops && hold.kind != HoldKind::mayDroop) return;
    const bool seen =
        !hold.way || hold.way->by >= (slides(hold.joint) ? kDroopSeenMm : kDroopSeenRad);
    if (hold.kind == HoldKind::mayDroop && !seen) return;
    PrintFinding finding;
    finding.word = PrintWord::droops;
    finding.grade = hold.kind == HoldKind::droops && seen ? PrintGrade::finding : PrintGrade::hint;
    finding.parts = {hold.child, hold.parent};
    finding.joint = hold.joint;
    finding.mode = mode.mode;
    finding.at_P = atInChild(hold, mode.mode);
    finding.lower = std::max(0.0, 2 * hold.needed - hold.neededUpper);
    finding.upper = hold.neededUpper;
    finding.needed = hold.kind == HoldKind::droops ? hold.holdsHigh : hold.holdsLow;
    finding.unit = unitOf(hold.joint);
    finding.sentence = holdSentence(hold);
    findings_.push_back(finding);
  }

  Vector3d atInChild(const JointHold& hold, ModeId mode) const {
    const Configuration& standing = subject_.modes->at(mode.index).configuration;
    return posesOf(*subject_.assembly, standing)[hold.child.index].inverse() * hold.at_W;
  }

  std::string holdSentence(const JointHold& hold) const {
    const std::string unit = std::string(" ") + unitOf(hold.joint);
    std::string text = hold.kind == HoldKind::droops ? "" : "it may droop: ";
    text += slides(hold.joint) ? "weight pulls it with " : "weight turns it with ";
    text += figureText(hold.needed) + unit + ", its fit holds ";
    text += hold.kind == HoldKind::droops
                ? figureText(hold.holdsHigh) + unit + " at most"
                : figureText(hold.holdsLow) + unit + " at least and " +
                      figureText(hold.holdsHigh) + " at most";
    return text + wayText(hold);
  }

  std::string wayText(const JointHold& hold) const {
    if (!hold.way) return "; the floor or a grip bears part of it";
    if (!std::isfinite(hold.way->by)) return "; nothing stops it";
    const std::string by =
        slides(hold.joint)
            ? "; it slides " + weightText("%.1f", hold.way->by) + " mm"
            : "; it turns " + weightText("%.0f", degFromRad(hold.way->by)) + " degrees";
    if (hold.way->meets) return by + " until it meets another part";
    if (hold.way->meetsFloor) return by + " down to the floor";
    return by + (hold.way->toRange ? " to the end of its range" : " before it hangs freely");
  }

  /// A joint that holds in every mode by something else than its fit, which alone would not do.
  struct Between {
    const WorstLoad* worst = nullptr;
    const JointHold* hold = nullptr;
    double holds = std::numeric_limits<double>::infinity();
  };

  std::optional<Between> betweenOf(const WorstLoad& worst) const {
    Between between;
    between.worst = &worst;
    for (const ModeWeight& mode : result_.modes) {
      for (const JointHold& hold : mode.joints) {
        if (hold.joint != worst.joint) continue;
        if (hold.kind == HoldKind::droops || hold.kind == HoldKind::mayDroop) return std::nullopt;
        between.hold = &hold;
        between.holds = std::min(between.holds, hold.holdsHigh);
      }
    }
    if (!between.hold || worst.unheld - worst.offBy <= between.holds) return std::nullopt;
    return between;
  }

  /// One hint for all: a hand is there while it is changed.
  void addBetween() {
    std::optional<Between> most;
    std::size_t count = 0;
    for (const WorstLoad& worst : result_.worst) {
      const auto between = betweenOf(worst);
      if (!between) continue;
      ++count;
      const bool turns = !slides(worst.joint);
      const bool more = !most || (turns && slides(most->worst->joint)) ||
                        (turns == !slides(most->worst->joint) &&
                         worst.unheld - between->holds > most->worst->unheld - most->holds);
      if (more) most = between;
    }
    if (!most) return;
    const WorstLoad& worst = *most->worst;
    PrintFinding finding;
    finding.word = PrintWord::droops;
    finding.grade = PrintGrade::hint;
    finding.parts = {most->hold->child, most->hold->parent};
    finding.joint = worst.joint;
    finding.lower = std::max(0.0, worst.unheld - worst.offBy);
    finding.upper = worst.unheld + worst.offBy;
    finding.needed = most->holds;
    finding.unit = unitOf(worst.joint);
    finding.sentence = std::to_string(count) + (count == 1 ? " joint gives" : " joints give") +
                       " way if let go of between the modes; here weight " +
                       (slides(worst.joint) ? "pulls" : "turns") + " with up to " +
                       figureText(worst.unheld) + " " + finding.unit + " (instant " +
                       weightText("%.2f", worst.unheldInstant) + " of " +
                       subject_.ways->at(worst.unheldWay).name + "), and the fit holds " +
                       figureText(most->holds) + " at most";
    findings_.push_back(finding);
  }

  const PrintSubject& subject_;
  const WeightResult& result_;
  PrintFindings& findings_;
};

}  // namespace

std::string wayWord(const Vector3d& way_W) {
  Eigen::Index most = 0;
  way_W.cwiseAbs().maxCoeff(&most);
  return std::string("towards ") + (way_W(most) < 0 ? '-' : '+') +
         "xyz"[static_cast<std::size_t>(most)];
}

void addWeightFindings(const PrintSubject& subject, const WeightResult& result,
                       PrintFindings& findings) {
  WeightFindings(subject, result, findings).add();
}

}  // namespace swingroom
