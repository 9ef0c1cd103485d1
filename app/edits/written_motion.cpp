#include "app/edits/written_motion.h"

#include <algorithm>
#include <cmath>

#include "core/files/loading/joint_values.h"
#include "core/files/loading/load_modes.h"
#include "core/files/loading/placed_modes.h"

namespace swingroom {
namespace {

double withoutNoise(double number) {
  return std::round(number * 1e6) / 1e6 + 0.0;
}

bool takesValue(const Joint& joint) {
  return joint.type != JointType::fixed && !joint.follows;
}

JointValue coreValue(const Joint& joint, const DocumentValue& value) {
  if (const auto* turn = std::get_if<ThreeNumbers>(&value)) {
    return unitOf(joint.type) * Vector3d(turn->data());
  }
  return {std::get<double>(value) * unitOf(joint.type), 0, 0};
}

/// Of the right kind for the joint: what edits go by may be in error.
bool fits(const Joint& joint, const DocumentValue& value) {
  return (joint.type == JointType::ball) == std::holds_alternative<ThreeNumbers>(value);
}

std::string firstJointOf(const Assembly& assembly, PartId part, std::size_t mount) {
  return assembly.joint(assembly.mountsOf(part).at(mount).joints.front()).name;
}

}  // namespace

DocumentValue writtenValue(const Joint& joint, const JointValue& value) {
  const JointValue written = value / unitOf(joint.type);
  if (joint.type != JointType::ball) return withoutNoise(written.x());
  return ThreeNumbers{withoutNoise(written.x()), withoutNoise(written.y()),
                      withoutNoise(written.z())};
}

WrittenStanding writtenStanding(const Assembly& assembly, const Configuration& standing) {
  WrittenStanding written;
  for (std::size_t j = 0; j < assembly.joints().size(); ++j) {
    const Joint& joint = assembly.joints()[j];
    if (takesValue(joint)) written.values[joint.name] = writtenValue(joint, standing.values.at(j));
  }
  for (std::size_t p = 0; p < assembly.parts().size(); ++p) {
    if (assembly.mountsOf(PartId{p}).size() < 2) continue;
    written.mounts[assembly.parts()[p].name] =
        firstJointOf(assembly, PartId{p}, standing.mounts.at(p));
  }
  return written;
}

Outcome<WrittenMotion> WrittenMotion::of(const AssemblyDocument& document) {
  Outcome<LoadedAssembly> loaded = loadJointsAndModes(document);
  if (!loaded) return loaded.problems();
  return WrittenMotion(document, std::move(loaded).value());
}

const Joint* WrittenMotion::joint(const std::string& name) const {
  const auto id = assembly().findJoint(name);
  if (!id || !takesValue(assembly().joint(*id))) return nullptr;
  return &assembly().joint(*id);
}

WrittenStanding WrittenMotion::mode(const std::string& name) const {
  const auto found = std::find_if(modes_.begin(), modes_.end(),
                                  [&](const DocumentMode& mode) { return mode.name == name; });
  if (found == modes_.end()) return {};
  const auto index = static_cast<std::size_t>(found - modes_.begin());
  WrittenStanding standing = writtenStanding(assembly(), loaded_.modes.at(index).configuration);
  if (!found->values) return standing;
  for (auto& [joint, value] : standing.values) {
    const auto written = found->values->find(joint);
    if (written != found->values->end()) value = written->second;
  }
  return standing;
}

std::string WrittenMotion::mountBy(const std::string& part, const std::string& joint) const {
  const auto partId = assembly().findPart(part);
  const auto jointId = assembly().findJoint(joint);
  if (!partId || !jointId) return "";
  const auto mount = mountWith(assembly(), *partId, *jointId);
  return mount ? firstJointOf(assembly(), *partId, *mount) : "";
}

void WrittenMotion::replug(const DocumentSequence& way, const DocumentReplug& replug,
                           WrittenStanding& standing) const {
  const std::string onto = mountBy(replug.part, replug.onto);
  const auto part = assembly().findPart(replug.part);
  if (onto.empty() || !standing.mounts.contains(replug.part)) return;
  const WrittenStanding to = mode(way.to);
  const std::string was = standing.mounts[replug.part];
  const auto isMoved = [&](const std::string& joint) {
    return std::any_of(way.steps.begin(), way.steps.end(),
                       [&](const DocumentStep& step) { return step.moves.contains(joint); });
  };
  // The hand that plugs the part sets the joints that no step moves: as the file's reader has it.
  for (const Mount& mount : assembly().mountsOf(*part)) {
    const std::string& first = assembly().joint(mount.joints.front()).name;
    if (first != onto && first != was) continue;
    for (const JointId id : mount.joints) {
      const std::string& name = assembly().joint(id).name;
      const auto wanted = to.values.find(name);
      if (wanted != to.values.end() && !isMoved(name)) standing.values[name] = wanted->second;
    }
  }
  standing.mounts[replug.part] = onto;
}

std::vector<WrittenStanding> WrittenMotion::stands(const DocumentSequence& way) const {
  std::vector<WrittenStanding> stands{mode(way.from)};
  if (way.steps.empty()) {
    WrittenStanding end = mode(way.to);
    end.mounts = stands.front().mounts;
    stands.push_back(std::move(end));
    return stands;
  }
  for (const DocumentStep& step : way.steps) {
    WrittenStanding end = stands.back();
    if (step.replug) replug(way, *step.replug, end);
    for (const auto& [name, value] : step.moves) {
      const Joint* moved = joint(name);
      if (moved && fits(*moved, value)) end.values[name] = value;
    }
    stands.push_back(std::move(end));
  }
  return stands;
}

std::vector<ShortOf> WrittenMotion::missing(const DocumentSequence& way) const {
  const WrittenStanding end = stands(way).back();
  const WrittenStanding wanted = mode(way.to);
  const auto isFitted = [&](const std::string& name) {
    return std::any_of(modes_.begin(), modes_.end(), [&](const DocumentMode& mode) {
      return mode.name == name && mode.placements;
    });
  };
  const double slack = isFitted(way.from) || isFitted(way.to) ? kFitTolerance : kValueTolerance;
  std::vector<ShortOf> missing;
  for (const Joint& joint : assembly().joints()) {
    const auto at = end.values.find(joint.name), to = wanted.values.find(joint.name);
    if (at == end.values.end() || to == wanted.values.end()) continue;
    if (!holds(joint.name, end) || !holds(joint.name, wanted)) continue;
    const double amount =
        differenceOf(joint, coreValue(joint, at->second), coreValue(joint, to->second));
    if (amount <= slack) continue;
    missing.push_back({joint.name, at->second, to->second, differenceText(joint, amount)});
  }
  return missing;
}

std::vector<std::string> WrittenMotion::wronglyMounted(const DocumentSequence& way) const {
  const WrittenStanding end = stands(way).back();
  std::vector<std::string> parts;
  for (const auto& [part, mount] : mode(way.to).mounts) {
    const auto at = end.mounts.find(part);
    if (at != end.mounts.end() && at->second != mount) parts.push_back(part);
  }
  return parts;
}

std::vector<DocumentJoint> WrittenMotion::impliedJoints() const {
  std::vector<DocumentJoint> implied;
  for (std::size_t j = joints_; j < assembly().joints().size(); ++j) {
    const Joint& joint = assembly().joints()[j];
    DocumentJoint written;
    written.name = joint.name;
    written.type = joint.type;
    written.child = assembly().part(joint.child).name;
    written.through = ThreeNumbers{joint.through.x(), joint.through.y(), joint.through.z()};
    written.along = ThreeNumbers{joint.along.x(), joint.along.y(), joint.along.z()};
    implied.push_back(written);
  }
  return implied;
}

bool WrittenMotion::holds(const std::string& name, const WrittenStanding& standing) const {
  const auto id = assembly().findJoint(name);
  if (!id) return false;
  const std::string& child = assembly().part(assembly().joint(*id).child).name;
  const auto mount = standing.mounts.find(child);
  return mount == standing.mounts.end() || mountBy(child, name) == mount->second;
}

bool WrittenMotion::same(const std::string& name, const DocumentValue& a,
                         const DocumentValue& b) const {
  const Joint* of = joint(name);
  if (!of || !fits(*of, a) || !fits(*of, b)) return a == b;
  return differenceOf(*of, coreValue(*of, a), coreValue(*of, b)) <= kValueTolerance;
}

DocumentValues WrittenMotion::difference(const WrittenStanding& start,
                                         const WrittenStanding& end) const {
  DocumentValues values;
  for (const auto& [name, value] : end.values) {
    const auto was = start.values.find(name);
    if (was != start.values.end() && same(name, was->second, value)) continue;
    if (holds(name, end)) values[name] = value;
  }
  return values;
}

WrittenStanding WrittenMotion::between(const WrittenStanding& start, const WrittenStanding& end,
                                       double part) const {
  WrittenStanding here = part >= 1 ? end : start;
  if (part <= 0 || part >= 1) return here;
  for (auto& [name, value] : here.values) {
    const Joint* of = joint(name);
    const auto to = end.values.find(name);
    if (!of || to == end.values.end() || value == to->second) continue;
    value = writtenValue(
        *of, valueBetween(*of, coreValue(*of, value), coreValue(*of, to->second), part));
  }
  return here;
}

std::string WrittenMotion::text(const std::string& name, const DocumentValue& value) const {
  const Joint* of = joint(name);
  return of && fits(*of, value) ? valueText(*of, coreValue(*of, value)) : "";
}

std::string WrittenMotion::complaint(const std::string& name, const DocumentValue& value) const {
  const Joint* of = joint(name);
  if (!of || !fits(*of, value)) return "is no value of joint \"" + name + "\"";
  return complaintAbout(*of, coreValue(*of, value));
}

std::string WrittenMotion::complaint(const WrittenStanding& standing) const {
  for (const auto& [name, value] : standing.values) {
    if (!holds(name, standing)) continue;
    const std::string told = complaint(name, value);
    if (!told.empty()) return told;
  }
  return "";
}

}  // namespace swingroom
