#include "core/files/urdf/robot_tree.h"

#include <algorithm>
#include <map>
#include <set>

#include "core/files/document/document_problems.h"
#include "core/files/document/json_value.h"

namespace swingroom {
namespace {

using MaybeIndex = std::optional<std::size_t>;

template <typename Named>
std::vector<std::string> namesOf(const std::vector<Named>& all) {
  std::vector<std::string> names;
  for (const Named& one : all) names.push_back(one.name);
  return names;
}

template <typename Named>
MaybeIndex indexNamed(const std::vector<Named>& all, const std::string& name) {
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const Named& one) { return one.name == name; });
  if (found == all.end()) return std::nullopt;
  return static_cast<std::size_t>(found - all.begin());
}

class TreeMaker {
 public:
  TreeMaker(const RobotDescription& robot, XmlProblems& problems)
      : robot_(robot), problems_(problems) {}

  std::optional<RobotTree> make() {
    const std::size_t before = problems_.mistakes.size();
    tellTwins(robot_.links, "link");
    tellTwins(robot_.joints, "joint");
    // Who hangs on whom cannot be said while two have one name.
    if (problems_.mistakes.size() > before) return std::nullopt;
    hang();
    findRoot();
    tellRings();
    follow();
    if (problems_.mistakes.size() > before || robot_.links.empty()) return std::nullopt;
    place();
    return std::move(tree_);
  }

 private:
  template <typename Named>
  void tellTwins(const std::vector<Named>& all, const std::string& noun);
  MaybeIndex linkOf(const RobotJoint& joint, const std::string& name, const char* which);
  void hang();
  void findRoot();
  void tellRings();
  void follow();
  MaybeIndex leaderOf(const RobotJoint& joint);
  void place();
  MaybeIndex parentOf(std::size_t link) const {
    return tree_.jointTo[link] ? parents_[*tree_.jointTo[link]] : std::nullopt;
  }

  const RobotDescription& robot_;
  XmlProblems& problems_;
  RobotTree tree_;
  std::vector<MaybeIndex> parents_;  ///< By joint: its parent link.
  bool whole_ = true;                ///< No joint names a link that is not there.
};

template <typename Named>
void TreeMaker::tellTwins(const std::vector<Named>& all, const std::string& noun) {
  std::map<std::string, int> first;
  for (const Named& one : all) {
    const auto [known, isNew] = first.emplace(one.name, one.line);
    if (isNew || one.name.empty()) continue;
    problems_.mistake(one.line,
                      "there is another " + noun + " " + inQuotes(one.name) + " in line " +
                          std::to_string(known->second),
                      "give each " + noun + " a name of its own");
  }
}

MaybeIndex TreeMaker::linkOf(const RobotJoint& joint, const std::string& name, const char* which) {
  if (name.empty()) return std::nullopt;  // Told by the reader.
  const MaybeIndex link = indexNamed(robot_.links, name);
  if (!link) {
    std::string hint = didYouMean(name, namesOf(robot_.links));
    if (hint.empty()) hint = "add the link, or take the joint out";
    problems_.mistake(joint.line,
                      "joint " + inQuotes(joint.name) + " has " + which + " " + inQuotes(name) +
                          ", but there is no such link",
                      hint);
  }
  return link;
}

void TreeMaker::hang() {
  tree_.jointTo.resize(robot_.links.size());
  parents_.resize(robot_.joints.size());
  for (std::size_t j = 0; j < robot_.joints.size(); ++j) {
    const RobotJoint& joint = robot_.joints[j];
    parents_[j] = linkOf(joint, joint.parent, "parent");
    const MaybeIndex child = linkOf(joint, joint.child, "child");
    whole_ = whole_ && parents_[j] && child;
    if (!child) continue;
    MaybeIndex& carrier = tree_.jointTo[*child];
    if (carrier) {
      problems_.mistake(joint.line,
                        "link " + inQuotes(joint.child) + " hangs on two joints, " +
                            inQuotes(robot_.joints[*carrier].name) + " and " + inQuotes(joint.name),
                        "loops are not read: a link may be the child of one joint");
    } else {
      carrier = j;
    }
  }
}

void TreeMaker::findRoot() {
  std::vector<std::size_t> roots;
  for (std::size_t i = 0; i < robot_.links.size(); ++i) {
    if (!tree_.jointTo[i]) roots.push_back(i);
  }
  if (!roots.empty()) tree_.root = roots.front();
  // What hangs on nothing because its joint is broken is told with the joint.
  if (roots.size() < 2 || !whole_) return;
  std::vector<std::string> names;
  for (const std::size_t root : roots) names.push_back(robot_.links[root].name);
  problems_.mistake(robot_.links[roots[1]].line,
                    "there are " + std::to_string(roots.size()) +
                        " links that hang on no other: " + listed(names),
                    "a robot has one root: hang the others on it by a joint, of type fixed if "
                    "they stand still, or take them out");
}

void TreeMaker::tellRings() {
  std::set<std::size_t> told;
  for (std::size_t start = 0; start < robot_.links.size(); ++start) {
    std::vector<std::size_t> way;
    MaybeIndex at = start;
    while (at && std::find(way.begin(), way.end(), *at) == way.end()) {
      way.push_back(*at);
      at = parentOf(*at);
    }
    if (!at || *at != start || told.contains(start)) continue;
    std::string names;
    for (const std::size_t link : way) {
      told.insert(link);
      names += inQuotes(robot_.links[link].name) + " hangs on ";
    }
    problems_.mistake(robot_.links[start].line,
                      "links close a ring: " + names + inQuotes(robot_.links[start].name),
                      "loops are not read: take one of the joints out");
  }
}

MaybeIndex TreeMaker::leaderOf(const RobotJoint& joint) {
  const MaybeIndex leader = indexNamed(robot_.joints, joint.mimic->joint);
  if (!leader) {
    std::string hint = didYouMean(joint.mimic->joint, namesOf(robot_.joints));
    if (hint.empty()) hint = "name the joint that leads";
    problems_.mistake(joint.mimic->line,
                      "joint " + inQuotes(joint.name) + " mimics " + inQuotes(joint.mimic->joint) +
                          ", but there is no such joint",
                      hint);
    return std::nullopt;
  }
  if (moves(robot_.joints[*leader].kind)) return leader;
  problems_.mistake(joint.mimic->line,
                    "joint " + inQuotes(joint.name) + " mimics " + inQuotes(joint.mimic->joint) +
                        ", which does not move",
                    "only revolute, continuous and prismatic joints can be followed");
  return std::nullopt;
}

void TreeMaker::follow() {
  tree_.leader.resize(robot_.joints.size());
  for (std::size_t j = 0; j < robot_.joints.size(); ++j) {
    if (robot_.joints[j].mimic) tree_.leader[j] = leaderOf(robot_.joints[j]);
  }
  for (std::size_t j = 0; j < robot_.joints.size(); ++j) {
    MaybeIndex at = tree_.leader[j];
    for (std::size_t i = 0; at && *at != j && i < robot_.joints.size(); ++i) at = tree_.leader[*at];
    if (!at || *at != j) continue;
    problems_.mistake(robot_.joints[j].mimic->line,
                      "joint " + inQuotes(robot_.joints[j].name) + " mimics itself" +
                          (*tree_.leader[j] == j ? "" : " by way of others"),
                      "one joint must lead");
  }
}

void TreeMaker::place() {
  std::vector<std::vector<std::size_t>> children(robot_.links.size());
  for (std::size_t i = 0; i < robot_.links.size(); ++i) {
    if (const MaybeIndex parent = parentOf(i)) children[*parent].push_back(i);
  }
  tree_.X_WL.assign(robot_.links.size(), Pose::Identity());
  tree_.order.push_back(tree_.root);
  for (std::size_t done = 0; done < tree_.order.size(); ++done) {
    const std::size_t parent = tree_.order[done];
    for (const std::size_t child : children[parent]) {
      tree_.X_WL[child] = tree_.X_WL[parent] * robot_.joints[*tree_.jointTo[child]].X_PJ;
      tree_.order.push_back(child);
    }
  }
}

}  // namespace

std::optional<RobotTree> robotTree(const RobotDescription& robot, XmlProblems& problems) {
  return TreeMaker(robot, problems).make();
}

std::optional<std::size_t> jointNamed(const RobotDescription& robot, const std::string& name) {
  return indexNamed(robot.joints, name);
}

std::vector<std::string> movingJointNames(const RobotDescription& robot) {
  std::vector<std::string> names;
  for (const RobotJoint& joint : robot.joints) {
    if (moves(joint.kind) && !joint.mimic) names.push_back(joint.name);
  }
  return names;
}

}  // namespace swingroom
