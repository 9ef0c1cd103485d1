#include "core/files/loading/load_modes.h"

#include <algorithm>

#include "core/files/document/json_value.h"
#include "core/files/loading/joint_values.h"
#include "core/files/loading/load_joints.h"
#include "core/files/loading/placed_modes.h"

namespace swingroom {
namespace {

/// Turns one mode of the file into one of core.
class ModeLoader {
 public:
  ModeLoader(const MotionContext& context, const DocumentMode& written, std::string pointer)
      : context_(context), written_(written), pointer_(std::move(pointer)) {}

  std::optional<Mode> load(const WantedPlacements& wanted);

 private:
  bool hasOneForm();
  void loadMounts(std::vector<std::size_t>& mounts);
  void mountPart(const std::string& part, const std::string& joint,
                 std::vector<std::size_t>& mounts);
  void loadValues(Configuration& configuration);
  void judgeUnnamed(const std::vector<NamedValue>& named, const Configuration& configuration);
  bool holds(JointId joint, const Configuration& configuration) const;

  const MotionContext& context_;
  const DocumentMode& written_;
  std::string pointer_;
};

bool ModeLoader::hasOneForm() {
  if (written_.values && written_.placements) {
    context_.problems.mistake(pointer_, "gives both values and placements", "keep one of them");
  }
  const bool told = context_.problems.anyIn(pointer_ + "/values") ||
                    context_.problems.anyIn(pointer_ + "/placements");
  if (!written_.values && !written_.placements && !told) {
    context_.problems.mistake(pointer_, "gives neither values nor placements",
                              "\"values\": {} puts every joint at 0");
  }
  return written_.values.has_value() != written_.placements.has_value();
}

void ModeLoader::mountPart(const std::string& partName, const std::string& jointName,
                           std::vector<std::size_t>& mounts) {
  DocumentProblems& problems = context_.problems;
  const std::string at = pointerTo(pointerTo(pointer_, "mounts"), partName);
  const auto part = context_.partNames.find(partName, at, problems);
  const auto joint = context_.jointNames.find(jointName, at, problems);
  if (!part || !joint || !context_.assembly) return;
  const auto mount = mountWith(*context_.assembly, PartId{*part}, JointId{*joint});
  if (mount) {
    mounts[*part] = *mount;
  } else {
    problems.mistake(at, "mounts " + inQuotes(partName) + " on joint " + inQuotes(jointName) +
                             ", which does not carry it");
  }
}

void ModeLoader::loadMounts(std::vector<std::size_t>& mounts) {
  for (const auto& [part, joint] : written_.mounts) mountPart(part, joint, mounts);
  if (!context_.assembly) return;
  for (std::size_t i = 0; i < mounts.size(); ++i) {
    const Part& part = context_.assembly->part(PartId{i});
    const auto& choices = context_.assembly->mountsOf(PartId{i});
    if (choices.size() < 2 || written_.mounts.contains(part.name)) continue;
    std::vector<std::string> joints;
    for (const Mount& mount : choices)
      joints.push_back(context_.joints[mount.joints.front().index].name);
    context_.problems.mistake(pointer_,
                              "does not say which mount holds " + inQuotes(part.name) +
                                  ": it can hang by " + listed(joints),
                              "add \"mounts\": {" + inQuotes(part.name) + ": " +
                                  inQuotes(joints.front()) + "}, or another of them");
  }
}

bool ModeLoader::holds(JointId joint, const Configuration& configuration) const {
  const PartId child = context_.joints[joint.index].child;
  return mountWith(*context_.assembly, child, joint) == configuration.mounts[child.index];
}

void ModeLoader::judgeUnnamed(const std::vector<NamedValue>& named,
                              const Configuration& configuration) {
  std::vector<std::string> atZero;
  for (std::size_t j = 0; j < context_.joints.size(); ++j) {
    const Joint& joint = context_.joints[j];
    const bool isNamed = std::any_of(named.begin(), named.end(), [&](const NamedValue& value) {
      return value.joint.index == j;
    });
    const bool cannotBeNamed = joint.type == JointType::fixed || joint.follows.has_value();
    if (isNamed || cannotBeNamed || !holds(JointId{j}, configuration)) continue;
    atZero.push_back(joint.name);
    const std::string complaint = complaintAbout(joint, JointValue::Zero());
    if (complaint.empty()) continue;
    context_.problems.mistake(
        pointer_, "does not name joint " + inQuotes(joint.name) + ", which then " + complaint);
  }
  if (atZero.empty()) return;
  const char* what =
      atZero.size() == 1 ? "the joint not named is at 0: " : "the joints not named are at 0: ";
  context_.problems.note(pointer_, what + listed(atZero));
}

void ModeLoader::loadValues(Configuration& configuration) {
  const std::string at = pointerTo(pointer_, "values");
  const auto named = readValues(context_, *written_.values, at);
  // A value in the file that makes no sense was told: its joint is not "not named" besides.
  if (!context_.assembly || context_.problems.anyIn(at)) return;
  setValues(context_, named, pointer_, configuration.values);
  judgeUnnamed(named, configuration);
}

std::optional<Mode> ModeLoader::load(const WantedPlacements& wanted) {
  Mode mode{written_.name, {}};
  if (context_.assembly) mode.configuration = context_.assembly->home();
  const bool readable = hasOneForm();
  loadMounts(mode.configuration.mounts);
  if (context_.assembly && !context_.problems.anyIn(pointer_)) {
    const std::string ring = ringText(*context_.assembly, mode.configuration);
    if (!ring.empty()) {
      context_.problems.mistake(pointerTo(pointer_, "mounts"), "close a ring of parts: " + ring);
    }
  }
  if (readable && written_.values) loadValues(mode.configuration);
  const bool canFit = readable && context_.assembly && !context_.problems.anyIn(pointer_);
  if (canFit && written_.placements) fitPlacements(context_, wanted, pointer_, mode.configuration);
  if (!context_.assembly || context_.problems.anyIn(pointer_)) return std::nullopt;
  return mode;
}

}  // namespace

std::vector<NamedValue> readValues(const MotionContext& context, const DocumentValues& values,
                                   const std::string& pointer) {
  std::vector<NamedValue> named;
  for (const auto& [name, written] : values) {
    const std::string at = pointerTo(pointer, name);
    const auto index = context.jointNames.find(name, at, context.problems);
    if (!index || context.problems.anyIn(pointerTo("/joints", *index))) continue;
    const Joint& joint = context.joints[*index];
    const auto value = readValue(joint, written, at, context.problems);
    if (!value) continue;
    const std::string complaint = complaintAbout(joint, *value);
    if (!complaint.empty()) context.problems.mistake(at, complaint);
    named.push_back({JointId{*index}, *value, at});
  }
  return named;
}

void setValues(const MotionContext& context, const std::vector<NamedValue>& named,
               const std::string& pointer, std::vector<JointValue>& values) {
  for (const NamedValue& value : named) values[value.joint.index] = value.value;
  for (const JointId id : context.followers) {
    const Joint& joint = context.joints[id.index];
    const JointValue followed = followedValue(joint, values);
    JointValue& value = values[id.index];
    const auto own = std::find_if(named.begin(), named.end(),
                                  [&](const NamedValue& one) { return one.joint == id; });
    const std::string leader = inQuotes(context.joints[joint.follows->leader.index].name);
    if (own == named.end()) {
      const std::string complaint = complaintAbout(joint, followed);
      if (!complaint.empty()) {
        context.problems.mistake(pointer, "has " + inQuotes(joint.name) + " follow " + leader +
                                              " to where it " + complaint);
      }
    } else if (differenceOf(joint, value, followed) > kValueTolerance) {
      context.problems.mistake(own->pointer,
                               "is " + valueText(joint, value) + ", but " + inQuotes(joint.name) +
                                   " follows " + leader + ", which puts it at " +
                                   valueText(joint, followed),
                               "leave the follower out, or move its leader");
    }
    value = followed;
  }
}

std::optional<std::size_t> mountWith(const Assembly& assembly, PartId part, JointId joint) {
  const auto& mounts = assembly.mountsOf(part);
  for (std::size_t m = 0; m < mounts.size(); ++m) {
    const auto& joints = mounts[m].joints;
    if (std::find(joints.begin(), joints.end(), joint) != joints.end()) return m;
  }
  return std::nullopt;
}

std::vector<std::optional<Mode>> loadModes(const MotionContext& context,
                                           const AssemblyDocument& document,
                                           const std::vector<WantedPlacements>& wanted) {
  std::vector<std::optional<Mode>> modes;
  for (std::size_t i = 0; i < document.modes.size(); ++i) {
    ModeLoader loader(context, document.modes[i], pointerTo("/modes", i));
    modes.push_back(loader.load(wanted.at(i)));
  }
  return modes;
}

}  // namespace swingroom
