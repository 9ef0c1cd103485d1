#include <algorithm>
#include <cmath>
#include <cstdio>

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
    for (const WorstLoad& worst : result_.worst) addBetween(worst);
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
                : figureText(hold.holdsLow) + unit + " for sure and no more than " +
                      figureText(hold.holdsHigh);
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

  /// Only joints that hold in every mode and have a fit that is known: the others were told.
  void addBetween(const WorstLoad& worst) {
    double holds = std::numeric_limits<double>::infinity();
    const JointHold* any = nullptr;
    for (const ModeWeight& mode : result_.modes) {
      for (const JointHold& hold : mode.joints) {
        if (hold.joint != worst.joint) continue;
        if (hold.kind == HoldKind::droops || hold.kind == HoldKind::mayDroop) return;
        any = &hold;
        holds = std::min(holds, hold.holdsHigh);
      }
    }
    if (!any || worst.lower - worst.offBy <= holds || worst.lower <= worst.offBy) return;
    PrintFinding finding;
    finding.word = PrintWord::droops;
    finding.grade = PrintGrade::hint;
    finding.parts = {any->child, any->parent};
    finding.joint = worst.joint;
    finding.lower = std::max(0.0, worst.lower - worst.offBy);
    finding.upper = worst.upper + worst.offBy;
    finding.needed = holds;
    finding.unit = unitOf(worst.joint);
    finding.sentence =
        std::string("between the modes, let go: weight ") +
        (slides(worst.joint) ? "pulls" : "turns") + " it with up to " + figureText(finding.upper) +
        " " + finding.unit + " (at instant " + weightText("%.2f", worst.instant) + " of " +
        subject_.ways->at(worst.way).name + "), its fit holds " + figureText(holds) + " at most";
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
