#include "core/files/urdf/read_srdf.h"

#include <tinyxml2.h>

#include <algorithm>

#include "core/files/document/document_problems.h"
#include "core/files/document/json_value.h"
#include "core/files/urdf/robot_tree.h"

namespace swingroom {
namespace {

using tinyxml2::XMLElement;

class SrdfReader {
 public:
  SrdfReader(const RobotDescription& robot, XmlProblems& problems)
      : robot_(robot), problems_(problems) {}

  RobotStates read(const XMLElement& root);

 private:
  void readState(const XMLElement& element);
  void readValue(const XMLElement& element, RobotState& state);
  void add(RobotState state, const std::string& group);
  void readAllowed(const XMLElement& element);
  bool isLink(const std::string& name) const {
    return std::any_of(robot_.links.begin(), robot_.links.end(),
                       [&](const RobotLink& link) { return link.name == name; });
  }

  const RobotDescription& robot_;
  XmlProblems& problems_;
  RobotStates states_;
};

void SrdfReader::readValue(const XMLElement& element, RobotState& state) {
  const std::string name = attributeText(element, "name");
  const auto index = jointNamed(robot_, name);
  if (!index) {
    std::string hint = didYouMean(name, movingJointNames(robot_));
    if (hint.empty()) hint = "its moving joints are " + listed(movingJointNames(robot_));
    problems_.mistake(element.GetLineNum(),
                      "state " + inQuotes(state.name) + " names joint " + inQuotes(name) +
                          ", which the robot does not have",
                      hint);
    return;
  }
  const RobotJoint& joint = robot_.joints[*index];
  if (!moves(joint.kind) || joint.mimic) return;
  state.values[name] = attributeNumbers(element, "value", 1, std::nullopt, problems_)[0];
}

/// States of one name in several groups are one state of the robot, unless they disagree.
void SrdfReader::add(RobotState state, const std::string& group) {
  for (RobotState& known : states_.states) {
    if (known.name != state.name) continue;
    const bool agrees = std::all_of(state.values.begin(), state.values.end(), [&](const auto& one) {
      const auto at = known.values.find(one.first);
      return at == known.values.end() || at->second == one.second;
    });
    if (agrees) return known.values.insert(state.values.begin(), state.values.end()), void();
    state.name += " (" + group + ")";
    break;
  }
  states_.states.push_back(std::move(state));
}

void SrdfReader::readState(const XMLElement& element) {
  RobotState state;
  state.name = attributeText(element, "name");
  state.line = element.GetLineNum();
  if (state.name.empty()) {
    problems_.mistake(state.line, "a <group_state> has no name");
    return;
  }
  for (auto* e = element.FirstChildElement("joint"); e; e = e->NextSiblingElement("joint")) {
    readValue(*e, state);
  }
  add(std::move(state), attributeText(element, "group"));
}

void SrdfReader::readAllowed(const XMLElement& element) {
  RobotStates::Allowed allowed{attributeText(element, "link1"), attributeText(element, "link2"),
                               attributeText(element, "reason")};
  for (const std::string& link : {allowed.linkA, allowed.linkB}) {
    if (isLink(link)) continue;
    auto& unknown = states_.unknown;
    if (std::find(unknown.begin(), unknown.end(), link) == unknown.end()) unknown.push_back(link);
    return;
  }
  if (allowed.linkA != allowed.linkB) states_.allowed.push_back(std::move(allowed));
}

RobotStates SrdfReader::read(const XMLElement& root) {
  for (auto* e = root.FirstChildElement("group_state"); e;
       e = e->NextSiblingElement("group_state")) {
    readState(*e);
  }
  for (auto* e = root.FirstChildElement("disable_collisions"); e;
       e = e->NextSiblingElement("disable_collisions")) {
    readAllowed(*e);
  }
  return std::move(states_);
}

}  // namespace

RobotStates readSrdf(const RobotDescription& robot, XmlProblems& problems) {
  tinyxml2::XMLDocument document;
  const XMLElement* root =
      readXml(document, "robot", "an SRDF file holds one <robot> with <group_state>", problems);
  if (!root) return {};
  return SrdfReader(robot, problems).read(*root);
}

}  // namespace swingroom
