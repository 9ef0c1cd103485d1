#include "app/edits/suggested_edits.h"

#include <cmath>

#include "app/edits/instance_edits.h"
#include "app/edits/pair_edits.h"
#include "core/files/document/inferred_document.h"

namespace swingroom::edits {
namespace {

constexpr double kMm = 1e-4, kDirection = 1e-6, kDeg = 1e-4;

ThreeNumbers writtenNumbers(const Vector3d& v, double tolerance) {
  return {roundedWithin(v.x(), tolerance), roundedWithin(v.y(), tolerance),
          roundedWithin(v.z(), tolerance)};
}

DocumentZone writtenZone(const JointZone& zone, bool isBall) {
  DocumentZone written;
  written.radius = roundedWithin(zone.radiusMm, kMm);
  if (isBall) return written;
  written.from = roundedWithin(zone.fromMm, kMm);
  written.to = roundedWithin(zone.toMm, kMm);
  return written;
}

std::optional<DocumentRange> writtenRange(const Joint& joint) {
  if (joint.type == JointType::ball || joint.type == JointType::fixed) return std::nullopt;
  if (!std::isfinite(joint.range.min) || !std::isfinite(joint.range.max)) return std::nullopt;
  const double unit = joint.type == JointType::hinge ? degFromRad(1) : 1;
  return DocumentRange(TwoNumbers{roundedWithin(unit * joint.range.min, kDeg),
                                  roundedWithin(unit * joint.range.max, kDeg)});
}

DocumentPlacement writtenPlacement(const Pose& X_WP) {
  const Eigen::Quaterniond turn(X_WP.linear());
  DocumentPlacement placement;
  placement.at = writtenNumbers(X_WP.translation(), kMm);
  placement.turn = {roundedWithin(turn.w(), 1e-9), roundedWithin(turn.x(), 1e-9),
                    roundedWithin(turn.y(), 1e-9), roundedWithin(turn.z(), 1e-9)};
  return placement;
}

TwoNumbers writtenSpan(const Span& span) {
  return {roundedWithin(span.min, kMm), roundedWithin(span.max, kMm)};
}

}  // namespace

PartNames partNames(const AssemblyDocument& document) {
  PartNames names;
  for (const DocumentPart& part : document.parts) names.push_back(part.name);
  return names;
}

DocumentJoint writtenJoint(const Joint& joint, const PartNames& parts) {
  DocumentJoint written;
  written.name = joint.name;
  written.type = joint.type;
  if (joint.parent) written.parent = parts.at(joint.parent->index);
  written.child = parts.at(joint.child.index);
  if (joint.fitMm) written.fit = std::floor(*joint.fitMm * 100 + 1e-6) / 100;
  if (joint.type == JointType::fixed) return written;
  const bool isBall = joint.type == JointType::ball;
  if (joint.type != JointType::slide || !joint.zones.empty())
    written.through = writtenNumbers(joint.through, kMm);
  if (!isBall) written.along = writtenNumbers(joint.along, kDirection);
  written.range = writtenRange(joint);
  for (const JointZone& zone : joint.zones) written.zones.push_back(writtenZone(zone, isBall));
  return written;
}

DocumentContact writtenContact(const Contact& contact, const std::vector<Mode>& modes) {
  DocumentContact written;
  written.kind = contact.kind;
  for (const ModeId mode : contact.modes) written.modes.push_back(modes.at(mode.index).name);
  written.steps = contact.steps;
  if (contact.overlapMm) written.overlap = writtenSpan(*contact.overlapMm);
  if (contact.gapMm) written.gap = writtenSpan(*contact.gapMm);
  if (contact.place) {
    written.place = DocumentPlace{writtenNumbers(contact.place->at, kMm),
                                  roundedWithin(contact.place->radiusMm, kMm), {}};
  }
  if (!contact.reason.empty()) written.reason = contact.reason;
  return written;
}

Edited placePins(const AssemblyDocument& document, const std::vector<PlacedPin>& pins) {
  Edited changed = document;
  std::set<std::string> done;
  for (const PlacedPin& pin : pins) {
    if (!done.insert(pin.pin).second) continue;
    // The part itself first: the others stand behind it.
    std::vector<Place> places;
    bool isFirst = false;
    for (const PlacedPin& one : pins) {
      if (one.pin != pin.pin) continue;
      const Place place{one.name, writtenPlacement(one.X_WP)};
      if (one.isItself) {
        isFirst = true;
        places.insert(places.begin(), place);
      } else {
        places.push_back(place);
      }
    }
    changed = addInstances(*changed, pin.pin, places, isFirst);
    if (!changed) return changed;
  }
  return changed;
}

Edited addJoints(const AssemblyDocument& document, const std::vector<DocumentJoint>& joints) {
  Edited changed = document;
  for (const DocumentJoint& joint : joints) {
    changed = addJoint(*changed, joint);
    if (!changed) return changed;
  }
  return changed;
}

AssemblyDocument addContacts(AssemblyDocument document, const std::vector<PairContact>& contacts) {
  for (const PairContact& one : contacts)
    document = contact(std::move(document), one.a, one.b, one.contact);
  return document;
}

}  // namespace swingroom::edits
