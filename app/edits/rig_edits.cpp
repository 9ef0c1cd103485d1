#include "app/edits/rig_edits.h"

#include <QCoreApplication>
#include <algorithm>

#include "app/edits/joint_uses.h"
#include "app/edits/sound_edit.h"
#include "core/files/document/json_value.h"

namespace swingroom::edits {
namespace {

struct RigText {
  Q_DECLARE_TR_FUNCTIONS(RigText)
};

QString inQuotesAs(const std::string& name) {
  return QString::fromStdString(inQuotes(name));
}

/// A part's name as one says it.
QString spoken(const std::string& name) {
  return QString::fromStdString(name).replace(QLatin1Char('_'), QLatin1Char(' '));
}

std::string wantedName(const DocumentJoint& joint) {
  const QString child = spoken(joint.child);
  switch (joint.type) {
    case JointType::hinge:
      return RigText::tr("%1 hinge", "name of a joint: its part").arg(child).toStdString();
    case JointType::slide:
      return RigText::tr("%1 slide", "name of a joint: its part").arg(child).toStdString();
    case JointType::ball:
      return RigText::tr("%1 ball", "name of a joint: its part").arg(child).toStdString();
    case JointType::fixed:
      break;
  }
  if (!joint.parent) {
    return RigText::tr("%1 on the ground", "name of a joint: its part").arg(child).toStdString();
  }
  return RigText::tr("%1 on %2", "name of a joint: its part, what that hangs on")
      .arg(child, spoken(*joint.parent))
      .toStdString();
}

bool hangs(const AssemblyDocument& document, const std::string& part) {
  return !firstOfMounts(document, part).empty();
}

void insertAll(std::vector<std::string>& all, const std::vector<std::string>& more) {
  all.insert(all.end(), more.begin(), more.end());
}

std::optional<Problem> partProblem(const AssemblyDocument& document, const std::string& part) {
  if (findNamed(document.parts, part)) return std::nullopt;
  return notThere(partCalled(part));
}

/// What a removed joint leaves behind.
void tidyAfter(const AssemblyDocument& before, Removal& removal) {
  insertAll(removal.also, settleMounts(removal.document));
  insertAll(removal.also, keepWhole(before, removal.document));
}

/// The joint seen from its child: the parent hangs on the child by it.
void turnRound(AssemblyDocument& document, DocumentJoint& joint) {
  std::string child = joint.child;
  joint.child = *joint.parent;
  joint.parent = std::move(child);
  if (joint.along) joint.along = negative(*joint.along);
  for (DocumentZone& zone : joint.zones) {
    if (!zone.from || !zone.to) continue;
    const double from = negative(*zone.to);
    zone.to = negative(*zone.from);
    zone.from = from;
  }
  if (joint.type != JointType::ball) return;
  // A turn seen from the other side is the turn back; about the axis reversed its twist is the
  // same.
  forEachValue(document, joint.name, [](DocumentValue& value) {
    if (auto* turn = std::get_if<ThreeNumbers>(&value)) *turn = negative(*turn);
  });
}

/// From `part` to the part that stands still or hangs on the ground; empty: there is a ring.
std::vector<std::string> wayDown(const AssemblyDocument& document, const std::string& part) {
  std::vector<std::string> way{part};
  for (;;) {
    const std::vector<std::string> mounts = firstOfMounts(document, way.back());
    if (mounts.empty()) return way;
    const auto& parent = findNamed(document.joints, mounts.front())->parent;
    if (!parent) return way;
    if (contains(way, *parent)) return {};
    way.push_back(*parent);
  }
}

/// Joints from `child` to `parent` become joints from `parent` to `child`, last one first.
void turnMountRound(AssemblyDocument& document, const std::string& child,
                    const std::string& parent) {
  std::vector<std::size_t> places;
  std::vector<DocumentJoint> joints;
  for (std::size_t j = 0; j < document.joints.size(); ++j) {
    if (document.joints[j].child != child || document.joints[j].parent != parent) continue;
    places.push_back(j);
    joints.push_back(document.joints[j]);
  }
  std::reverse(joints.begin(), joints.end());
  for (std::size_t i = 0; i < places.size(); ++i) {
    turnRound(document, joints[i]);
    document.joints[places[i]] = joints[i];
  }
}

}  // namespace

std::string jointNameFor(const AssemblyDocument& document, const DocumentJoint& joint) {
  return freeName(wantedName(joint), namesIn(document.joints));
}

Edited addJoint(const AssemblyDocument& document, const DocumentJoint& wanted) {
  if (const auto problem = partProblem(document, wanted.child)) return *problem;
  if (wanted.parent) {
    if (const auto problem = partProblem(document, *wanted.parent)) return *problem;
  }
  DocumentJoint joint = wanted;
  joint.name = trimmed(joint.name);
  joint.name = joint.name.empty() ? jointNameFor(document, joint)
                                  : freeName(joint.name, namesIn(document.joints));
  AssemblyDocument changed = document;
  changed.joints.push_back(joint);
  (void)settleMounts(changed);
  nameAtZero(changed, joint);
  return soundEdit(document, std::move(changed), jointCalled(joint.name));
}

Outcome<Removal> removeJoint(const AssemblyDocument& document, const std::string& name) {
  const DocumentJoint* joint = findNamed(document.joints, name);
  if (!joint) return notThere(jointCalled(name));
  const std::string child = joint->child;
  Removal removal{document, {}};
  insertAll(removal.also, takeJointOut(removal.document, name));
  tidyAfter(document, removal);
  if (!hangs(removal.document, child)) {
    removal.also.push_back(
        RigText::tr("%1 stands still then").arg(inQuotesAs(child)).toStdString());
  }
  return soundRemoval(document, std::move(removal), jointCalled(name));
}

Edited renameJoint(const AssemblyDocument& document, const std::string& name,
                   const std::string& wanted) {
  const std::string to = trimmed(wanted);
  AssemblyDocument changed = document;
  DocumentJoint* joint = findNamed(changed.joints, name);
  if (!joint) return notThere(jointCalled(name));
  if (to == name) return changed;
  if (const auto problem = nameProblem(jointCalled(name), to, namesIn(document.joints)))
    return *problem;
  joint->name = to;
  for (DocumentJoint& other : changed.joints) {
    if (other.follows && other.follows->joint == name) other.follows->joint = to;
  }
  for (DocumentMode& mode : changed.modes) {
    if (mode.values) renameKey(*mode.values, name, to);
    for (auto& [part, by] : mode.mounts) {
      if (by == name) by = to;
    }
  }
  for (DocumentSequence& way : changed.sequences) {
    for (DocumentStep& step : way.steps) {
      renameKey(step.moves, name, to);
      if (step.replug && step.replug->onto == name) step.replug->onto = to;
    }
  }
  renameJointInVariants(changed, name, to);
  return soundEdit(document, std::move(changed), jointCalled(name));
}

Outcome<Removal> reparentJoint(const AssemblyDocument& document, const std::string& name,
                               const std::optional<std::string>& parent) {
  const DocumentJoint* joint = findNamed(document.joints, name);
  if (!joint) return notThere(jointCalled(name));
  if (parent) {
    if (const auto problem = partProblem(document, *parent)) return *problem;
  }
  const auto was = joint->parent;
  const std::string child = joint->child;
  Removal removal{document, {}};
  for (DocumentJoint& one : removal.document.joints) {
    if (one.child == child && one.parent == was) one.parent = parent;
  }
  tidyAfter(document, removal);
  return soundRemoval(document, std::move(removal), jointCalled(name));
}

Outcome<Removal> groundPart(const AssemblyDocument& document, const std::string& part) {
  if (const auto problem = partProblem(document, part)) return *problem;
  const std::vector<std::string> way = wayDown(document, part);
  for (const std::string& one : way) {
    if (firstOfMounts(document, one).size() < 2) continue;
    return Problem{partCalled(part),
                   RigText::tr("cannot stand still: %1, which it hangs by, can "
                               "hang in several ways")
                       .arg(inQuotesAs(one))
                       .toStdString(),
                   RigText::tr("ground another part").toStdString()};
  }
  if (way.empty()) {
    return Problem{partCalled(part), RigText::tr("hangs in a ring of parts").toStdString(),
                   RigText::tr("mend the ring first").toStdString()};
  }
  Removal removal{document, {}};
  for (const DocumentJoint& one : document.joints) {
    if (one.child != way.back()) continue;
    insertAll(removal.also, takeJointOut(removal.document, one.name));
    removal.also.push_back(
        RigText::tr("the joint %1 to the ground").arg(inQuotesAs(one.name)).toStdString());
  }
  for (std::size_t i = way.size() - 1; i > 0; --i) {
    turnMountRound(removal.document, way[i - 1], way[i]);
  }
  tidyAfter(document, removal);
  return soundRemoval(document, std::move(removal), partCalled(part));
}

}  // namespace swingroom::edits
