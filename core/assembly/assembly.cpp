#include "core/assembly/assembly.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace swingroom {
namespace {

void requireThat(bool condition, const std::string& message) {
  if (!condition) throw std::invalid_argument("Assembly: " + message);
}

void requireJoint(const Joint& joint, std::size_t partCount, std::size_t jointCount) {
  const std::string name = "joint " + joint.name;
  requireThat(joint.child.index < partCount, name + " has no such child");
  requireThat(!joint.parent || joint.parent->index < partCount, name + " has no such parent");
  requireThat(!joint.parent || *joint.parent != joint.child, name + " hangs a part on itself");
  requireThat(joint.through.allFinite() && std::abs(joint.along.norm() - 1) < 1e-9, name + " has no unit axis");
  requireThat(!joint.follows || joint.follows->leader.index < jointCount, name + " follows no joint");
}

bool isGap(double gapMm) { return gapMm >= 0 && std::isfinite(gapMm); }

void requireRule(const PairRule& rule, std::size_t partCount) {
  requireThat(rule.a != rule.b && std::max(rule.a, rule.b).index < partCount,
              "a pair rule names no pair of parts");
  requireThat(!rule.requiredGapMm || isGap(*rule.requiredGapMm), "a pair rule's required gap is negative");
}

std::vector<std::vector<Mount>> collectMounts(const AssemblyParts& parts) {
  std::vector<std::vector<Mount>> mounts(parts.parts.size());
  for (std::size_t j = 0; j < parts.joints.size(); ++j) {
    const Joint& joint = parts.joints[j];
    auto& ofChild = mounts[joint.child.index];
    auto mount = std::find_if(ofChild.begin(), ofChild.end(),
                              [&](const Mount& m) { return m.parent == joint.parent; });
    if (mount == ofChild.end()) mount = ofChild.insert(ofChild.end(), Mount{joint.parent, {}});
    mount->joints.push_back(JointId{j});
  }
  return mounts;
}

template <typename Named>
std::optional<std::size_t> findNamed(const std::vector<Named>& all, std::string_view name) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const Named& one) { return one.name == name; });
  if (found == all.end()) return std::nullopt;
  return static_cast<std::size_t>(found - all.begin());
}

}  // namespace

Assembly::Assembly(AssemblyParts parts) : parts_(std::move(parts)) {
  requireThat(isGap(parts_.requiredGapMm), "required gap is negative");
  requireThat(parts_.resolutionMm > 0 && std::isfinite(parts_.resolutionMm), "resolution is not above 0");
  for (const Part& part : parts_.parts) {
    requireThat(part.X_WP_home.matrix().allFinite(), "part " + part.name + " has no place at home");
  }
  for (const Joint& joint : parts_.joints) requireJoint(joint, parts_.parts.size(), parts_.joints.size());
  for (const PairRule& rule : parts_.pairRules) requireRule(rule, parts_.parts.size());
  mounts_ = collectMounts(parts_);
}

std::optional<PartId> Assembly::findPart(std::string_view name) const {
  const auto index = findNamed(parts_.parts, name);
  return index ? std::optional(PartId{*index}) : std::nullopt;
}

std::optional<JointId> Assembly::findJoint(std::string_view name) const {
  const auto index = findNamed(parts_.joints, name);
  return index ? std::optional(JointId{*index}) : std::nullopt;
}

const PairRule* Assembly::ruleFor(PartId a, PartId b) const {
  for (const PairRule& rule : parts_.pairRules) {
    if ((rule.a == a && rule.b == b) || (rule.a == b && rule.b == a)) return &rule;
  }
  return nullptr;
}

double Assembly::requiredGapMm(PartId a, PartId b) const {
  const PairRule* rule = ruleFor(a, b);
  return rule ? rule->requiredGapMm.value_or(parts_.requiredGapMm) : parts_.requiredGapMm;
}

Configuration Assembly::home() const {
  return {std::vector<JointValue>(parts_.joints.size(), JointValue::Zero()),
          std::vector<std::size_t>(parts_.parts.size(), 0)};
}

const Mount* holdingMount(const Assembly& assembly, const Configuration& configuration, PartId part) {
  const auto& mounts = assembly.mountsOf(part);
  return mounts.empty() ? nullptr : &mounts.at(configuration.mounts.at(part.index));
}

std::optional<PartId> findRing(const Assembly& assembly, const Configuration& configuration) {
  for (std::size_t start = 0; start < assembly.parts().size(); ++start) {
    std::optional<PartId> part = PartId{start};
    for (std::size_t climbed = 0; part; ++climbed) {
      if (climbed > assembly.parts().size()) return part;  // By now the climb goes round in the ring.
      const Mount* mount = holdingMount(assembly, configuration, *part);
      part = mount ? mount->parent : std::nullopt;
    }
  }
  return std::nullopt;
}

std::vector<Pose> displacementsOf(const Assembly& assembly, const Configuration& configuration) {
  if (findRing(assembly, configuration)) throw std::invalid_argument("displacementsOf: the joints form a ring");
  const std::size_t count = assembly.parts().size();
  std::vector<Pose> displacements(count, Pose::Identity());
  std::vector<bool> done(count, false);
  const auto place = [&](const auto& self, PartId part) -> void {
    if (done[part.index]) return;
    done[part.index] = true;
    const Mount* mount = holdingMount(assembly, configuration, part);
    if (!mount) return;
    Pose D = Pose::Identity();
    if (mount->parent) {
      self(self, *mount->parent);
      D = displacements[mount->parent->index];
    }
    for (const JointId id : mount->joints) {
      D = D * displacementOf(assembly.joint(id), configuration.values.at(id.index));
    }
    displacements[part.index] = D;
  };
  for (std::size_t i = 0; i < count; ++i) place(place, PartId{i});
  return displacements;
}

std::vector<Pose> posesOf(const Assembly& assembly, const Configuration& configuration) {
  std::vector<Pose> poses = displacementsOf(assembly, configuration);
  for (std::size_t i = 0; i < poses.size(); ++i) poses[i] = poses[i] * assembly.part(PartId{i}).X_WP_home;
  return poses;
}

}  // namespace swingroom
