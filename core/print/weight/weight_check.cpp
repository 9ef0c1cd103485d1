#include "core/print/weight/weight_check.h"

#include <algorithm>
#include <cmath>

#include "core/sweep/standing_gaps.h"

namespace swingroom {
namespace {

/// How far a joint is moved to see whether parts that rest on each other keep it: far above their
/// gap, far below what a maker would call moved.
constexpr double kRestSlideMm = 0.5, kRestTurnRad = radFromDeg(2);

HoldingFriction holdingOf(const JointFriction& friction) {
  HoldingFriction holding;
  holding.known = friction.model != FrictionModel::unknown;
  holding.low = friction.torqueLowNmm;
  holding.high = friction.torqueHighNmm;
  holding.armLowMm = friction.armLowMm;
  holding.armHighMm = friction.armHighMm;
  return holding;
}

bool coversMode(const Contact& contact, ModeId mode) {
  return std::find(contact.modes.begin(), contact.modes.end(), mode) != contact.modes.end();
}

class WeightCheck {
 public:
  WeightCheck(const PrintSubject& subject, const std::vector<JointFriction>& friction,
              WorkMonitor& monitor)
      : subject_(subject), assembly_(*subject.assembly), monitor_(monitor) {
    result_.friction = friction;
  }

  WeightResult run() {
    result_.masses = partMasses(subject_, monitor_);
    for (std::size_t m = 0; m < subject_.modes->size(); ++m) {
      result_.modes.push_back(modeWeight(ModeId{m}));
    }
    if (!result_.modes.empty()) result_.whole = result_.modes.front().standing.mass;
    result_.worst = worstLoads(subject_, result_.masses, monitor_);
    return std::move(result_);
  }

 private:
  ModeWeight modeWeight(ModeId mode) {
    const Configuration& standing = subject_.modes->at(mode.index).configuration;
    const HungFigure figure(assembly_, standing, result_.masses, subject_.up_W);
    ModeWeight weight;
    weight.mode = mode;
    weight.standing = figureStandOf(assembly_, figure, subject_.up_W, toleranceMm());
    HoldQuestion question;
    question.assembly = &assembly_;
    question.figure = &figure;
    question.standing = &standing;
    question.up_W = subject_.up_W;
    for (const JointFriction& friction : result_.friction) {
      question.friction.push_back(holdingOf(friction));
    }
    addContacts(question, mode);
    weight.inHand = weight.standing.kind != StandKind::stands;
    if (!weight.inHand) question.floor = weight.standing.points;
    weight.joints = jointHolds(question);
    for (JointHold& hold : weight.joints) letGo(hold, question, weight);
    return weight;
  }

  /// How far a joint goes that nothing was found to hold. If it meets something before that is
  /// seen, that is what holds it.
  void letGo(JointHold& hold, const HoldQuestion& question, const ModeWeight& weight) {
    const bool held = hold.kind != HoldKind::droops && hold.kind != HoldKind::mayDroop &&
                      hold.kind != HoldKind::unknown;
    if (held || hold.shared) return;
    DroopQuestion droop;
    droop.assembly = &assembly_;
    droop.gaps = &gaps();
    droop.figure = question.figure;
    droop.standing = question.standing;
    if (!weight.inHand) droop.floorMm = weight.standing.floorMm;
    droop.up_W = subject_.up_W;
    for (const HungJoint& hung : question.figure->joints()) {
      if (hung.joint == hold.joint) hold.way = droopWay(droop, hung, monitor_);
    }
    const bool slides = assembly_.joint(hold.joint).type == JointType::slide;
    if (hold.way->meets && hold.way->by < (slides ? kDroopSeenMm : kDroopSeenRad))
      hold.kind = HoldKind::stop;
  }

  /// The coarsest layer of what is printed: soles are not flatter.
  double toleranceMm() const {
    double layerMm = 0;
    for (const PartPrint& print : subject_.parts) {
      if (print.printed) layerMm = std::max(layerMm, print.process.layerMm.value);
    }
    return std::max(layerMm, assembly_.resolutionMm());
  }

  void addContacts(HoldQuestion& question, ModeId mode) {
    for (const PairRule& rule : assembly_.pairRules()) {
      for (const Contact& contact : rule.contacts) {
        if (!coversMode(contact, mode)) continue;
        if (contact.kind == ContactKind::grip) question.grips.emplace_back(rule.a, rule.b);
        if (contact.kind == ContactKind::rest) addRest(question, rule);
      }
    }
  }

  /// Joints between the two that cannot move one way because the two would meet.
  void addRest(HoldQuestion& question, const PairRule& rule) {
    if (!subject_.hasMesh(rule.a) || !subject_.hasMesh(rule.b)) return;
    const HungFigure& figure = *question.figure;
    for (const HungJoint& hung : figure.joints()) {
      const Joint& joint = assembly_.joint(hung.joint);
      if (joint.type != JointType::hinge && joint.type != JointType::slide) continue;
      if (figure.hangsOn(rule.a, hung.child) == figure.hangsOn(rule.b, hung.child)) continue;
      const double by = joint.type == JointType::slide ? kRestSlideMm : kRestTurnRad;
      if (meetsWhenMoved(question, rule, hung.joint, by)) question.restsAbove.push_back(hung.joint);
      if (meetsWhenMoved(question, rule, hung.joint, -by)) {
        question.restsBelow.push_back(hung.joint);
      }
    }
  }

  bool meetsWhenMoved(const HoldQuestion& question, const PairRule& rule, JointId joint,
                      double by) {
    Configuration moved = *question.standing;
    moved.values.at(joint.index).x() += by;
    const auto gap = gaps().gapOf(moved, rule.a, rule.b, 1);
    return gap && gap->meets;
  }

  const StandingGaps& gaps() {
    if (!gaps_) gaps_.emplace(assembly_, *subject_.geometry, subject_.threads);
    return *gaps_;
  }

  const PrintSubject& subject_;
  const Assembly& assembly_;
  WorkMonitor& monitor_;
  WeightResult result_;
  std::optional<StandingGaps> gaps_;
};

}  // namespace

WeightResult checkWeight(const PrintSubject& subject, const std::vector<JointFriction>& friction,
                         WorkMonitor& monitor) {
  return WeightCheck(subject, friction, monitor).run();
}

}  // namespace swingroom
