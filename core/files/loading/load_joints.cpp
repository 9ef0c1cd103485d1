#include "core/files/loading/load_joints.h"

#include <algorithm>
#include <functional>

#include "core/files/document/json_value.h"
#include "core/files/loading/joint_values.h"

namespace swingroom {
namespace {

const char* nameOf(JointType type) {
  constexpr const char* kNames[] = {"hinge", "slide", "ball", "fixed joint"};
  return kNames[static_cast<std::size_t>(type)];
}

/// Examines one joint of the file and fills one of core.
class JointLoader {
 public:
  JointLoader(const DocumentJoint& written, std::string pointer, DocumentProblems& problems)
      : written_(written), pointer_(std::move(pointer)), problems_(problems) {}

  Joint load(const NameIndex& parts, const NameIndex& joints) {
    joint_.name = written_.name;
    joint_.type = written_.type;
    loadParts(parts);
    // Of a joint whose type is not known nothing else can be judged.
    if (problems_.isBadForm(pointerTo(pointer_, "type"))) return joint_;
    loadAxis();
    loadRange();
    for (const double click : written_.clicks) joint_.clicks.push_back(click * unit());
    checkClicks();
    joint_.fitMm = written_.fit;
    if (written_.play.value_or(0) < 0) mistake("play", "must not be negative");
    loadZones();
    if (written_.follows) loadFollows(*written_.follows, joints);
    return joint_;
  }

 private:
  bool isA(JointType type) const { return written_.type == type; }
  double unit() const { return unitOf(written_.type); }
  void mistake(const char* key, std::string what, std::string hint = "") {
    problems_.mistake(pointerTo(pointer_, key), std::move(what), std::move(hint));
  }
  /// For a key that should be there and is not.
  void lacks(const char* key, const char* because) {
    problems_.mistake(pointer_, "has no " + inQuotes(key) + because);
  }

  void loadParts(const NameIndex& parts);
  void loadAxis();
  void loadRange();
  void checkClicks();
  void loadZones();
  void loadFollows(const DocumentFollows& follows, const NameIndex& joints);

  const DocumentJoint& written_;
  std::string pointer_;
  DocumentProblems& problems_;
  Joint joint_;
};

void JointLoader::loadParts(const NameIndex& parts) {
  const auto child = parts.find(written_.child, pointerTo(pointer_, "child"), problems_);
  if (child) joint_.child = PartId{*child};
  if (!written_.parent) return;
  const auto parent = parts.find(*written_.parent, pointerTo(pointer_, "parent"), problems_);
  if (parent) joint_.parent = PartId{*parent};
  if (parent && parent == child) {
    mistake("child", "hangs " + inQuotes(written_.child) + " on itself",
            "parent and child must be two parts");
  }
}

void JointLoader::loadAxis() {
  const bool needsThrough = isA(JointType::hinge) || isA(JointType::ball);
  const bool needsAlong = isA(JointType::hinge) || isA(JointType::slide);
  const std::string because = std::string(", which a ") + nameOf(written_.type) + " needs";
  if (needsThrough && !written_.through) lacks("through", because.c_str());
  if (needsAlong && !written_.along) lacks("along", because.c_str());
  if (written_.through) joint_.through = Vector3d(written_.through->data());
  if (!written_.along) return;
  const Vector3d along(written_.along->data());
  if (along.norm() < 1e-12) return mistake("along", "is zero, which is no direction");
  joint_.along = along.normalized();
}

void JointLoader::loadRange() {
  if (!written_.range) return;
  if (isA(JointType::fixed)) return mistake("range", "makes no sense for a fixed joint");
  const auto* ends = std::get_if<TwoNumbers>(&*written_.range);
  if (isA(JointType::ball) == (ends != nullptr)) {
    return mistake("range", isA(JointType::ball)
                                ? "of a ball must be {\"swing\": .., \"twist\": [.., ..]}"
                                : "must be [least, most]: swing and twist are for balls");
  }
  const auto fill = [&](const TwoNumbers& range) {
    joint_.range.min = range[0] * unit();
    joint_.range.max = range[1] * unit();
    if (range[0] > range[1]) {
      mistake("range", "runs from " + numberText(range[0]) + " down to " + numberText(range[1]),
              "the smaller value comes first");
    }
  };
  if (ends) return fill(*ends);
  const auto& ball = std::get<DocumentBallRange>(*written_.range);
  if (!written_.along) lacks("along", ", from which swing and twist are measured");
  if (ball.swing.value_or(0) < 0) mistake("range", "has a negative swing");
  if (ball.swing) joint_.range.maxSwingRad = *ball.swing * unit();
  if (ball.twist) fill(*ball.twist);
}

void JointLoader::checkClicks() {
  if (written_.clicks.empty()) return;
  if (isA(JointType::fixed) || isA(JointType::ball)) {
    return mistake("clicks", "are for hinges and slides");
  }
  for (std::size_t i = 0; i < joint_.clicks.size(); ++i) {
    const std::string complaint = complaintAbout(joint_, {joint_.clicks[i], 0, 0});
    if (complaint.empty()) continue;
    problems_.mistake(pointerTo(pointerTo(pointer_, "clicks"), i), complaint);
  }
}

void JointLoader::loadZones() {
  const bool needsAlong = !isA(JointType::ball);
  if (!written_.zones.empty() && isA(JointType::slide) && !written_.through) {
    lacks("through", ", where the axis of its zones should be");
  }
  if (!written_.zones.empty() && isA(JointType::fixed) && !(written_.through && written_.along)) {
    problems_.mistake(pointer_, "has zones but no axis", "give it \"through\" and \"along\"");
  }
  for (std::size_t i = 0; i < written_.zones.size(); ++i) {
    const DocumentZone& zone = written_.zones[i];
    const std::string at = pointerTo(pointerTo(pointer_, "zones"), i);
    if (zone.radius <= 0) problems_.mistake(pointerTo(at, "radius"), "must be above 0");
    if (needsAlong && !(zone.from && zone.to)) {
      problems_.mistake(at, "must say \"from\" and \"to\", in mm along the axis");
    } else if (needsAlong && *zone.from >= *zone.to) {
      problems_.mistake(at, "runs from " + numberText(*zone.from) + " to " + numberText(*zone.to),
                        "\"from\" must be below \"to\"");
    }
    joint_.zones.push_back({zone.radius, zone.from.value_or(0), zone.to.value_or(0)});
  }
}

void JointLoader::loadFollows(const DocumentFollows& follows, const NameIndex& joints) {
  const std::string at = pointerTo(pointer_, "follows");
  if (isA(JointType::ball) || isA(JointType::fixed)) {
    problems_.mistake(at, "is for hinges and slides");
  }
  const auto leader = joints.find(follows.joint, pointerTo(at, "joint"), problems_);
  // Its unit is known only when all joints are: see loadJoints.
  if (leader)
    joint_.follows = JointFollow{JointId{*leader}, follows.ratio, follows.offset * unit()};
}

/// All rings of a map in which each has at most one next; each ring once, from its first member.
std::vector<std::vector<std::size_t>> ringsOf(
    std::size_t count, const std::function<std::optional<std::size_t>(std::size_t)>& next) {
  std::vector<std::vector<std::size_t>> rings;
  std::vector<std::size_t> visitedFrom(count, count);
  for (std::size_t start = 0; start < count; ++start) {
    std::optional<std::size_t> at = start;
    while (at && visitedFrom[*at] == count) {
      visitedFrom[*at] = start;
      at = next(*at);
    }
    if (!at || visitedFrom[*at] != start) continue;
    std::vector<std::size_t> ring{*at};
    for (auto one = next(*at); *one != *at; one = next(*one)) ring.push_back(*one);
    std::rotate(ring.begin(), std::min_element(ring.begin(), ring.end()), ring.end());
    rings.push_back(ring);
  }
  return rings;
}

template <typename Named>
std::string ringOfNames(const std::vector<Named>& all, const std::vector<std::size_t>& ring,
                        const std::string& between) {
  std::string text;
  for (const std::size_t one : ring) text += inQuotes(all[one].name) + between;
  return text + inQuotes(all[ring.front()].name);
}

}  // namespace

std::vector<Joint> loadJoints(const AssemblyDocument& document, const NameIndex& parts,
                              const NameIndex& jointNames, DocumentProblems& problems) {
  std::vector<Joint> joints;
  for (std::size_t i = 0; i < document.joints.size(); ++i) {
    const std::string pointer = pointerTo("/joints", i);
    joints.push_back(JointLoader(document.joints[i], pointer, problems).load(parts, jointNames));
  }
  for (std::size_t i = 0; i < joints.size(); ++i) {
    if (!joints[i].follows) continue;
    const Joint& leader = joints[joints[i].follows->leader.index];
    joints[i].follows->ratio *= unitOf(joints[i].type) / unitOf(leader.type);
    if (leader.type == JointType::hinge || leader.type == JointType::slide) continue;
    problems.mistake(pointerTo(pointerTo(pointerTo("/joints", i), "follows"), "joint"),
                     "names " + inQuotes(leader.name) + ", which is a " + nameOf(leader.type),
                     "only hinges and slides can be followed");
  }
  return joints;
}

std::vector<JointId> followersInOrder(const std::vector<Joint>& joints,
                                      DocumentProblems& problems) {
  const auto leaderOf = [&](std::size_t i) -> std::optional<std::size_t> {
    if (!joints[i].follows) return std::nullopt;
    return joints[i].follows->leader.index;
  };
  const auto rings = ringsOf(joints.size(), leaderOf);
  for (const auto& ring : rings) {
    problems.mistake(pointerTo(pointerTo("/joints", ring.front()), "follows"),
                     "closes a ring of followers: " + ringOfNames(joints, ring, " follows "),
                     "one of them must lead");
  }
  std::vector<JointId> order;
  if (!rings.empty()) return order;
  std::vector<bool> done(joints.size(), false);
  for (std::size_t i = 0; i < joints.size(); ++i) {
    std::vector<std::size_t> chain;
    for (std::optional<std::size_t> at = i; at && !done[*at]; at = leaderOf(*at)) {
      chain.push_back(*at);
      done[*at] = true;
    }
    for (auto one = chain.rbegin(); one != chain.rend(); ++one) {
      if (joints[*one].follows) order.push_back(JointId{*one});
    }
  }
  return order;
}

JointValue followedValue(const Joint& joint, const std::vector<JointValue>& values) {
  const JointFollow& follows = joint.follows.value();
  return {follows.ratio * values.at(follows.leader.index).x() + follows.offset, 0, 0};
}

void checkRings(const Assembly& assembly, DocumentProblems& problems) {
  // A part with several mounts may leave the ring: that is judged mode by mode.
  const auto onlyParentOf = [&](std::size_t i) -> std::optional<std::size_t> {
    const auto& mounts = assembly.mountsOf(PartId{i});
    if (mounts.size() != 1 || !mounts.front().parent) return std::nullopt;
    return mounts.front().parent->index;
  };
  for (const auto& ring : ringsOf(assembly.parts().size(), onlyParentOf)) {
    const JointId joint = assembly.mountsOf(PartId{ring.front()}).front().joints.front();
    problems.mistake(pointerTo("/joints", joint.index),
                     "closes a ring of parts: " + ringOfNames(assembly.parts(), ring, " hangs on "),
                     "one of them must hang on another part or stand still");
  }
}

std::string ringText(const Assembly& assembly, const Configuration& configuration) {
  const auto parentOf = [&](std::size_t i) -> std::optional<std::size_t> {
    const Mount* mount = holdingMount(assembly, configuration, PartId{i});
    if (!mount || !mount->parent) return std::nullopt;
    return mount->parent->index;
  };
  const auto rings = ringsOf(assembly.parts().size(), parentOf);
  return rings.empty() ? "" : ringOfNames(assembly.parts(), rings.front(), " hangs on ");
}

}  // namespace swingroom
