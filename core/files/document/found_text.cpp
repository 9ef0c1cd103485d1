#include "core/files/document/found_text.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "core/files/document/document_problems.h"
#include "core/files/document/inferred_document.h"
#include "core/files/document/json_value.h"

namespace swingroom {
namespace {

/// Parts that stand farther than this from where a folder has them are named.
constexpr double kToldMisfitMm = 0.005;
/// A hinge's travel below this may be a slip of the hand.
constexpr double kSlipMm = 1.0;

/// Two significant digits are enough to judge a size by.
std::string sized(double mm) {
  char text[40];
  std::snprintf(text, sizeof text, "%.2g mm", mm);
  return text;
}

std::string hundredths(double mm) {
  return numberText(std::round(mm * 100) / 100) + " mm";
}

std::string angleText(double angleRad) {
  return numberText(std::round(degFromRad(angleRad) * 100) / 100);
}

std::string vectorText(const ThreeNumbers& v) {
  return "(" + numberText(v[0]) + ", " + numberText(v[1]) + ", " + numberText(v[2]) + ")";
}

class Teller {
 public:
  explicit Teller(const FoundMotion& found) : found_(found) {}

  std::string name(std::size_t part) const { return found_.parts[part].name; }
  std::string name(const std::optional<PartId>& part) const {
    return part ? name(part->index) : "the ground";
  }
  std::vector<std::string> names(std::vector<std::size_t> parts) const {
    std::sort(parts.begin(), parts.end());
    std::vector<std::string> result;
    for (const std::size_t part : parts) result.push_back(name(part));
    return result;
  }

  std::string groups() const {
    const auto& groups = found_.motion.groups.groups;
    return counted(found_.parts.size(), "part") + ", which move as " +
           counted(groups.size(), "group") + "; the ground is " +
           listed(names(groups.front().parts)) + ".";
  }

  /// "arm hinge: arm turns 95 degrees on stem about the line through (..) along (..)".
  std::string joint(std::size_t i) const {
    const InferredJoint& inferred = found_.motion.joints[i];
    const DocumentJoint& written = found_.document.joints[i];
    const std::string child = name(inferred.joint.child.index);
    if (written.type == JointType::fixed) {
      return written.name + ": " + child + " moves with " + name(inferred.joint.parent) + ".";
    }
    if (written.type == JointType::ball) {
      return written.name + ": " + child + " turns " + angleText(inferred.value.norm()) +
             " degrees in a ball joint with " + name(inferred.joint.parent) + " about the point " +
             vectorText(*written.through) + ".";
    }
    const bool turns = written.type == JointType::hinge;
    const double value = turns ? roundedWithin(degFromRad(inferred.value.x()), 1e-4)
                               : roundedWithin(inferred.value.x(), 1e-4);
    return written.name + ": " + child + (turns ? " turns " : " travels ") + numberText(value) +
           (turns ? " degrees on " : " mm on ") + name(inferred.joint.parent) +
           (turns ? " about the line through " + vectorText(*written.through) : "") + " along " +
           vectorText(*written.along) + "; " + reason(inferred) + ".";
  }

  std::string reason(const InferredJoint& joint) const {
    switch (joint.reason) {
      case JointReason::held:
        return "a pin in a hole about that line says so";
      case JointReason::near:
        return joint.joint.type == JointType::hinge
                   ? "no pin in a hole says so, but the two are near each other there in both modes"
                   : "the two are near each other in both modes";
      case JointReason::nearOnce:
        return "a guess: the two are near each other in one mode only";
      case JointReason::nothing:
        return "a guess: nothing that it could hang on is near it";
      case JointReason::movesAlong:
        break;
    }
    return "it moves along";
  }

  /// One sentence for pins that are alike.
  std::vector<std::string> pins(const InferredJoint& joint) const {
    if (joint.ball) return {ball(joint, *joint.ball)};
    std::vector<std::string> sentences;
    std::vector<std::size_t> times;
    for (const PinInHole& each : joint.pins) {
      const std::string sentence = pin(joint, each);
      const auto same = std::find(sentences.begin(), sentences.end(), sentence);
      if (same == sentences.end()) {
        sentences.push_back(sentence);
        times.push_back(1);
      } else {
        ++times[static_cast<std::size_t>(same - sentences.begin())];
      }
    }
    for (std::size_t i = 0; i < sentences.size(); ++i) {
      sentences[i] += times[i] > 1 ? " (in " + std::to_string(times[i]) + " places)." : ".";
    }
    return sentences;
  }

  std::string pin(const InferredJoint& joint, const PinInHole& pin) const {
    return pairing(joint, pin.pinIsFirst, "pin", "hole", pin.pinRadiusMm, pin.holeRadiusMm,
                   pin.leastGapMm);
  }
  std::string ball(const InferredJoint& joint, const BallInSocket& ball) const {
    return pairing(joint, ball.ballIsFirst, "ball", "socket", ball.ballRadiusMm,
                   ball.socketRadiusMm, ball.leastGapMm) +
           ".";
  }
  std::string pairing(const InferredJoint& joint, bool innerIsParents, const std::string& inner,
                      const std::string& outer, double innerMm, double outerMm,
                      double leastGapMm) const {
    const std::string parent = name(joint.joint.parent), child = name(joint.joint.child.index);
    const double clearance = 2 * (outerMm - innerMm);
    return "  " + inner + " of " + (innerIsParents ? parent : child) + ", diameter " +
           hundredths(2 * innerMm) + ", in a " + outer + " of " +
           (innerIsParents ? child : parent) + ", diameter " + hundredths(2 * outerMm) + ": " +
           (clearance < 0 ? "interference " : "clearance ") + hundredths(std::abs(clearance)) +
           " on the diameter, at the least " + hundredths(leastGapMm) + " a side";
  }

  std::string zones(const DocumentJoint& joint) const {
    std::string text = "  suggested " + counted(joint.zones.size(), "zone") + ":";
    for (std::size_t i = 0; i < joint.zones.size(); ++i) {
      const DocumentZone& zone = joint.zones[i];
      text += std::string(i ? ";" : "") + " radius " + numberText(zone.radius) + " mm";
      if (!zone.from) continue;
      text +=
          " from " + numberText(*zone.from) + " to " + numberText(*zone.to) + " mm along the axis";
    }
    return text + ". No fit is set, so the clearance is measured but not judged.";
  }

  std::string fit() const {
    const auto& misfits = found_.misfitsMm;
    const auto worst = std::max_element(misfits.begin(), misfits.end());
    return "With these joints every part is within " + sized(std::max(*worst, 1e-4)) +
           " of where " + inQuotes(found_.document.modes.back().name) + " has it.";
  }

  void noteGround(Problems& notes) const {
    const MotionGroups& groups = found_.motion.groups;
    if (groups.takenOff.empty()) return;
    const Screw screw = screwOf(groups.takenOff.front());
    notes.push_back(
        {found_.document.modes.back().name,
         "no part stands where it stands in " + inQuotes(found_.document.modes.at(0).name) + ": " +
             listed(names(groups.groups.front().parts)) +
             " was taken as the ground, and the motion of that, a turn of " +
             angleText(screw.angleRad) + " degrees and " + sized(std::abs(screw.slideMm)) +
             " along its axis, was taken off all parts",
         "export both modes with one part standing still to choose another ground"});
  }

  void noteChosen(Problems& notes) const {
    const std::vector<std::size_t>& chosen = found_.motion.groups.chosen;
    if (chosen.empty()) return;
    notes.push_back({listed(names(chosen)),
                     "the triangles come in another order in the two folders, and what looks alike "
                     "from several sides fits in several ways: a way was taken in which it moves "
                     "with another part, if there is one, else the least turn",
                     "export both modes in one go with the same settings to be sure"});
  }

  void noteJoint(const InferredJoint& inferred, Problems& notes) const {
    const Joint& joint = inferred.joint;
    const bool turns = joint.type == JointType::hinge;
    if (inferred.reason == JointReason::nothing || inferred.reason == JointReason::nearOnce) {
      notes.push_back({joint.name, "hangs on " + name(joint.parent) + " by " + reason(inferred),
                       "set \"parent\" yourself if it hangs on another part"});
    }
    const bool wayIsKnown = !found_.parts.front().onTheWay.empty();
    if (turns && !wayIsKnown && inferred.value.x() > kPi - radFromDeg(0.01)) {
      notes.push_back({joint.name,
                       "turns by half a turn: two modes do not tell which way round it goes",
                       "turn the sign of its value round if it goes the other way"});
    }
    if (joint.type == JointType::slide && std::abs(inferred.value.x()) < kSlipMm &&
        hasHinge(joint)) {
      notes.push_back({joint.name,
                       "travels only " + sized(std::abs(inferred.value.x())) +
                           " along the axis of its hinge: a slip of the hand?",
                       "if so, put the part right in that mode and make the file again"});
    }
    std::vector<double> gaps;
    for (const PinInHole& pin : inferred.pins) gaps.push_back(pin.leastGapMm);
    if (inferred.ball) gaps.push_back(inferred.ball->leastGapMm);
    for (const double gap : gaps) {
      if (gap > 0) continue;
      notes.push_back({joint.name,
                       "what turns in it is thicker than its hole by up to " +
                           sized(std::max(1e-4, -2 * gap)) + " on the diameter",
                       "if it is meant, give the joint a negative \"fit\""});
    }
  }

  bool hasHinge(const Joint& slide) const {
    return std::any_of(
        found_.motion.joints.begin(), found_.motion.joints.end(), [&](const InferredJoint& other) {
          return other.joint.type == JointType::hinge && other.joint.child == slide.child;
        });
  }

  void notePairs(Problems& notes) const {
    for (const NearPair& near : found_.motion.touching) {
      notes.push_back({name(near.a) + " and " + name(near.b),
                       "never move against each other and are " + hundredths(near.gapMm) +
                           " apart: they were given a rest, so that this passes",
                       "take it out of \"pairs\" if they should keep the required gap"});
    }
    for (const NearPair& pin : found_.motion.otherPins) {
      const bool gap = pin.gapMm >= 0.01;
      notes.push_back(
          {name(pin.a) + " and " + name(pin.b),
           "have a pin in a hole too, " + hundredths(pin.gapMm) +
               " a side, but no joint: another pin of a joint, or a ring of joints, which a file "
               "cannot hold" +
               (gap ? "; their required gap was set to what is there" : ""),
           "in a ring all joints would have to move in step: look at what the check finds there"});
    }
  }

  void noteMisfits(Problems& notes) const {
    for (std::size_t i = 0; i < found_.parts.size(); ++i) {
      if (found_.misfitsMm[i] <= kToldMisfitMm) continue;
      notes.push_back({name(i),
                       "is " + sized(found_.misfitsMm[i]) + " from where " +
                           inQuotes(found_.document.modes.back().name) + " has it",
                       "small turns and travels that are no joint were left out"});
    }
  }

 private:
  std::string name(PartId part) const { return name(part.index); }

  const FoundMotion& found_;
};

}  // namespace

std::vector<std::string> foundSentences(const FoundMotion& found) {
  const Teller teller(found);
  std::vector<std::string> sentences{teller.groups()};
  if (found.motion.joints.empty()) sentences.push_back("No joints: nothing moves or touches.");
  for (std::size_t i = 0; i < found.motion.joints.size(); ++i) {
    sentences.push_back(teller.joint(i));
    for (const std::string& pin : teller.pins(found.motion.joints[i])) sentences.push_back(pin);
    const DocumentJoint& written = found.document.joints[i];
    if (!written.zones.empty()) sentences.push_back(teller.zones(written));
  }
  sentences.push_back(teller.fit());
  return sentences;
}

Problems foundNotes(const FoundMotion& found) {
  const Teller teller(found);
  Problems notes;
  teller.noteGround(notes);
  teller.noteChosen(notes);
  for (const InferredJoint& joint : found.motion.joints) teller.noteJoint(joint, notes);
  teller.notePairs(notes);
  teller.noteMisfits(notes);
  return notes;
}

std::string counted(std::size_t count, const std::string& noun) {
  return std::to_string(count) + " " + noun + (count == 1 ? "" : "s");
}

}  // namespace swingroom
