#include "core/print/joints/fits.h"

#include <algorithm>

#include "core/print/joints/axial_stop.h"
#include "core/print/joints/guide_fit.h"
#include "core/print/joints/joint_sides.h"
#include "core/print/joints/peg_head.h"
#include "core/print/joints/pin_fit.h"
#include "core/print/joints/socket_lip.h"

namespace swingroom {
namespace {

constexpr double kFitOffCentreMm = 0.3;  // Of a socket from the ball joint's point in the file.

FitDuty dutyOf(JointType type) {
  switch (type) {
    case JointType::hinge:
      return FitDuty::turns;
    case JointType::slide:
      return FitDuty::slides;
    case JointType::ball:
      return FitDuty::swivels;
    case JointType::fixed:
      break;
  }
  return FitDuty::pressed;
}

/// Looks at one joint in one standing.
class FitFinder {
 public:
  FitFinder(const PrintSubject& subject, const std::vector<RigPart>& parts,
            const JointStanding& standing, FitFigure& joint)
      : subject_(subject),
        parts_(placedRigParts(parts, standing)),
        standing_(standing),
        joint_(joint) {}

  bool find() {
    const bool found = joint_.duty == FitDuty::swivels ? ball() : pin() || guide();
    if (found) joint_.mode = standing_.mode;
    return found;
  }

 private:
  bool pin() {
    const PinAxis axis = joint_.duty == FitDuty::turns    ? PinAxis::same
                         : joint_.duty == FitDuty::slides ? PinAxis::parallel
                                                          : PinAxis::any;
    const std::vector<AxisFit> fits = pinFitsOf(parts_, standing_, axis);
    if (fits.empty()) return false;
    describePin(subject_, parts_, fits, joint_);
    joint_.head = pegHeadOf(parts_, joint_);
    if (joint_.duty == FitDuty::turns) {
      joint_.axial = axialStopOf(subject_, parts_, standing_, joint_.at_W, joint_.along_W,
                                 1.5 * joint_.holeMm);
    }
    return true;
  }

  bool guide() {
    if (joint_.duty != FitDuty::slides) return false;
    if (!describeGuide(subject_, parts_, standing_, joint_)) return false;
    joint_.head = slotHeadOf(parts_, joint_.pinPart, joint_.holePart, joint_.along_W);
    if (!joint_.head) {
      joint_.head = slotHeadOf(parts_, joint_.holePart, joint_.pinPart, joint_.along_W);
    }
    return true;
  }

  bool ball() {
    const SocketFit* best = nullptr;
    std::vector<SocketFit> fits;
    for (const PartId child : standing_.childSide) {
      for (const PartId parent : standing_.parentSide) {
        for (const SocketFit& fit : socketFitsBetween(parts_, child.index, parent.index)) {
          if ((fit.centre - standing_.through_W).norm() < kFitOffCentreMm) fits.push_back(fit);
        }
      }
    }
    for (const SocketFit& fit : fits) {
      if (!best || fit.leastGapMm < best->leastGapMm) best = &fit;
    }
    if (!best) return false;
    joint_.shape = FitShape::ball;
    joint_.pinPart = {best->ballPart};
    joint_.holePart = {best->socketPart};
    joint_.at_W = best->centre;
    joint_.pinMm = 2 * best->ballRadiusMm;
    joint_.holeMm = 2 * best->socketRadiusMm;
    joint_.offAxisMm = best->offCentreMm;
    joint_.clearanceMm = {std::min(2 * best->leastGapMm, best->clearanceMm()), best->clearanceMm()};
    joint_.isoReference = nearestFit(joint_.clearanceMm.leastMm, joint_.pinMm);
    describePrinted(roundGrowthMm(subject_, joint_.pinPart, joint_.holePart),
                    fitScatterMm(subject_, joint_.pinPart, joint_.holePart), joint_);
    joint_.lip = socketLip(parts_[best->socketPart], *best);
    joint_.along_W = joint_.lip->outwards_W;
    joint_.hubMm =
        holeWallOf(parts_[best->socketPart], best->centre, joint_.along_W, best->socketRadiusMm)
            .outerMm;
    return true;
  }

  const PrintSubject& subject_;
  const std::vector<RigPart> parts_;
  const JointStanding& standing_;
  FitFigure& joint_;
};

std::string lookedFor(FitDuty duty) {
  switch (duty) {
    case FitDuty::turns:
      return "no round pin in a round hole on its axis";
    case FitDuty::pressed:
      return "no round pin in a round hole between its parts";
    case FitDuty::slides:
      return "no faces within 1 mm that guide it on both sides";
    case FitDuty::swivels:
      return "no ball in a socket at its centre";
  }
  return "";
}

FitFigure fitOfJoint(const PrintSubject& subject, const std::vector<RigPart>& parts, JointId id) {
  const Joint& joint = subject.assembly->joint(id);
  FitFigure fit;
  fit.joint = id;
  fit.duty = dutyOf(joint.type);
  if (!joint.parent) {
    fit.reason = "it stands on the ground";
    return fit;
  }
  if (!subject.hasMesh(joint.child)) {
    fit.reason = "its part has no mesh";
    return fit;
  }
  for (const JointStanding& standing : standingsOf(subject, id)) {
    if (FitFinder(subject, parts, standing, fit).find()) return fit;
  }
  fit.reason = lookedFor(fit.duty);
  return fit;
}

}  // namespace

FitsResult checkFits(const PrintSubject& subject, WorkMonitor& monitor) {
  FitsResult result;
  const std::size_t count = subject.assembly->joints().size();
  result.fits.resize(count);
  const std::vector<RigPart> parts = rigPartsOf(*subject.assembly, subject.threads);
  parallelFor(count, subject.threads, [&](std::size_t j) {
    if (monitor.cancelled()) {
      result.fits[j].joint = {j};
      result.fits[j].reason = "not looked at";
      return;
    }
    result.fits[j] = fitOfJoint(subject, parts, {j});
    monitor.advance();
  });
  return result;
}

}  // namespace swingroom
