#include "core/files/urdf/robot_joints.h"

#include <algorithm>
#include <set>

#include "core/files/document/document_problems.h"
#include "core/files/document/found_text.h"
#include "core/files/document/inferred_document.h"
#include "core/files/document/json_value.h"
#include "core/files/urdf/robot_modes.h"

namespace swingroom {
namespace {

JointType typeOf(RobotJointKind kind) {
  switch (kind) {
    case RobotJointKind::revolute:
    case RobotJointKind::continuous:
      return JointType::hinge;
    case RobotJointKind::prismatic:
      return JointType::slide;
    default:
      return JointType::fixed;
  }
}

/// Decimals that only rounding made are left out.
ThreeNumbers tidied(const Vector3d& v, double tolerance) {
  return {roundedWithin(v.x(), tolerance), roundedWithin(v.y(), tolerance),
          roundedWithin(v.z(), tolerance)};
}

DocumentFollows followsOf(const RobotJoint& joint, const RobotJoint& leader) {
  DocumentFollows follows;
  follows.joint = leader.name;
  follows.ratio =
      roundedWithin(joint.mimic->multiplier * perFileUnit(leader) / perFileUnit(joint), 1e-12);
  follows.offset = roundedWithin(joint.mimic->offset / perFileUnit(joint), 1e-12);
  return follows;
}

void noteHeld(const RobotDescription& robot, XmlProblems& problems) {
  std::vector<std::string> held;
  int line = 0;
  for (const RobotJoint& joint : robot.joints) {
    if (moves(joint.kind) || joint.kind == RobotJointKind::fixed) continue;
    if (held.empty()) line = joint.line;
    held.push_back(joint.name);
  }
  if (held.empty()) return;
  problems.note(line,
                listed(held) +
                    (held.size() == 1 ? " is a floating or planar joint, which is"
                                      : " are floating or planar joints, which are") +
                    " held fixed where the robot puts it",
                "slides and a ball joint in its place give it room to move");
}

/// Pairs of parts that are allowed, each once, with the first reason.
class PairList {
 public:
  explicit PairList(const std::vector<std::vector<std::string>>& partsOf) : partsOf_(partsOf) {}

  /// Every part of the one link with every part of the other.
  void addLinks(std::size_t linkA, std::size_t linkB, const std::string& reason) {
    for (const std::string& a : partsOf_[linkA]) {
      for (const std::string& b : partsOf_[linkB]) {
        if (a != b && known_.insert(std::minmax(a, b)).second) add(a, b, reason);
      }
    }
  }
  std::vector<DocumentPair> take() { return std::move(pairs_); }

 private:
  void add(const std::string& a, const std::string& b, const std::string& reason) {
    DocumentPair pair;
    pair.parts = {a, b};
    pair.allow = reason;
    pairs_.push_back(std::move(pair));
  }

  const std::vector<std::vector<std::string>>& partsOf_;
  std::set<std::pair<std::string, std::string>> known_;
  std::vector<DocumentPair> pairs_;
};

std::map<std::string, std::size_t> linksByName(const RobotDescription& robot) {
  std::map<std::string, std::size_t> links;
  for (std::size_t l = 0; l < robot.links.size(); ++l) links[robot.links[l].name] = l;
  return links;
}

DocumentJoint documentJointOf(const RobotDescription& robot, const RobotTree& tree, std::size_t j,
                              std::size_t child) {
  const RobotJoint& joint = robot.joints[j];
  DocumentJoint written;
  written.name = joint.name;
  written.type = typeOf(joint.kind);
  if (!moves(joint.kind)) return written;
  const Pose& X_WJ = tree.X_WL[child];
  written.along = tidied(X_WJ.linear() * joint.axis_J.normalized(), 1e-14);
  if (!slides(joint)) written.through = tidied(1000 * X_WJ.translation(), 1e-12);
  if (const auto range = fileLimits(joint)) written.range = *range;
  if (tree.leader[j]) written.follows = followsOf(joint, robot.joints[*tree.leader[j]]);
  return written;
}

/// Further parts of a link hang on its first.
void addShapeJoints(const std::vector<std::string>& parts, std::set<std::string>& names,
                    std::vector<DocumentJoint>& joints) {
  for (std::size_t i = 1; i < parts.size(); ++i) {
    const std::string wanted = parts[i] + " on " + parts.front();
    DocumentJoint written;
    written.name = wanted;
    for (int n = 2; !names.insert(written.name).second; ++n) {
      written.name = wanted + " " + std::to_string(n);
    }
    written.parent = parts.front();
    written.child = parts[i];
    joints.push_back(std::move(written));
  }
}

}  // namespace

std::vector<DocumentJoint> robotJoints(const RobotDescription& robot, const RobotTree& tree,
                                       const std::vector<std::vector<std::string>>& partsOf,
                                       XmlProblems& problems) {
  std::vector<DocumentJoint> joints;
  std::set<std::string> names;
  const std::map<std::string, std::size_t> links = linksByName(robot);
  for (std::size_t j = 0; j < robot.joints.size(); ++j) {
    const RobotJoint& joint = robot.joints[j];
    names.insert(joint.name);
    const std::size_t child = links.at(joint.child);
    joints.push_back(documentJointOf(robot, tree, j, child));
    joints.back().parent = partsOf[links.at(joint.parent)].front();
    joints.back().child = partsOf[child].front();
  }
  for (const auto& parts : partsOf) addShapeJoints(parts, names, joints);
  noteHeld(robot, problems);
  return joints;
}

std::vector<DocumentPair> robotPairs(const RobotDescription& robot, const RobotTree& tree,
                                     const std::vector<ChosenBody>& bodies,
                                     const std::vector<std::vector<std::string>>& partsOf,
                                     const RobotStates& states, bool allowJoined) {
  PairList pairs(partsOf);
  const std::map<std::string, std::size_t> links = linksByName(robot);
  for (std::size_t l = 0; l < partsOf.size(); ++l) {
    pairs.addLinks(l, l, "both are shapes of the link " + robot.links[l].name);
  }
  for (const RobotStates::Allowed& allowed : states.allowed) {
    pairs.addLinks(
        links.at(allowed.linkA), links.at(allowed.linkB),
        "the robot's SRDF file says so" + (allowed.reason.empty() ? "" : ": " + allowed.reason));
  }
  if (!allowJoined) return pairs.take();
  std::set<std::size_t> bodied;
  for (const ChosenBody& chosen : bodies) bodied.insert(chosen.link);
  for (const std::size_t l : tree.order) {
    if (!bodied.contains(l) || !tree.jointTo[l]) continue;
    const auto parentOf = [&](std::size_t link) {
      return links.at(robot.joints[*tree.jointTo[link]].parent);
    };
    std::size_t parent = parentOf(l);
    while (!bodied.contains(parent) && tree.jointTo[parent]) parent = parentOf(parent);
    if (!bodied.contains(parent)) continue;
    pairs.addLinks(l, parent,
                   "joined by joint " + robot.joints[*tree.jointTo[l]].name +
                       ": taken out when the robot was read");
  }
  return pairs.take();
}

}  // namespace swingroom
