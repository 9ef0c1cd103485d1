#include "core/print/joints/joint_sides.h"

#include <algorithm>

namespace swingroom {
namespace {

/// By PartId: the part at whose end a chain of fixed joints begins.
std::vector<std::size_t> rigidRoots(const Assembly& assembly, const Configuration& standing) {
  std::vector<std::size_t> roots(assembly.parts().size());
  for (std::size_t p = 0; p < roots.size(); ++p) {
    std::size_t at = p;
    // No longer than there are parts: a tree.
    for (std::size_t steps = 0; steps < roots.size(); ++steps) {
      const Mount* mount = holdingMount(assembly, standing, {at});
      const bool fixed = mount && mount->parent &&
                         std::all_of(mount->joints.begin(), mount->joints.end(), [&](JointId id) {
                           return assembly.joint(id).type == JointType::fixed;
                         });
      if (!fixed) break;
      at = mount->parent->index;
    }
    roots[p] = at;
  }
  return roots;
}

std::vector<PartId> rigidSide(const PrintSubject& subject, const std::vector<std::size_t>& roots,
                              PartId own, bool alone) {
  std::vector<PartId> side;
  if (subject.hasMesh(own)) side.push_back(own);
  for (std::size_t p = 0; p < roots.size() && !alone; ++p) {
    if (p != own.index && roots[p] == roots[own.index] && subject.hasMesh({p})) side.push_back({p});
  }
  return side;
}

/// @param mount  In which the joint is.
JointStanding standingIn(const PrintSubject& subject, const Configuration& values, JointId id,
                         const Mount& mount) {
  const Assembly& assembly = *subject.assembly;
  const Joint& joint = assembly.joint(id);
  Configuration standing = values;
  const auto& mounts = assembly.mountsOf(joint.child);
  for (std::size_t m = 0; m < mounts.size(); ++m) {
    if (&mounts[m] == &mount) standing.mounts[joint.child.index] = m;
  }
  JointStanding result;
  const std::vector<std::size_t> roots = rigidRoots(assembly, standing);
  const bool alone = joint.type == JointType::fixed;
  result.childSide = rigidSide(subject, roots, joint.child, alone);
  result.parentSide = rigidSide(subject, roots, *joint.parent, alone);
  result.X_WPs = posesOf(assembly, standing);
  Pose D = displacementsOf(assembly, standing)[joint.parent->index];
  for (const JointId before : mount.joints) {
    if (before == id) break;
    D = D * displacementOf(assembly.joint(before), standing.values[before.index]);
  }
  result.through_W = D * joint.through;
  result.along_W = D.linear() * joint.along;
  return result;
}

}  // namespace

std::vector<JointStanding> standingsOf(const PrintSubject& subject, JointId id) {
  const Assembly& assembly = *subject.assembly;
  const Joint& joint = assembly.joint(id);
  std::vector<JointStanding> standings;
  if (!joint.parent) return standings;
  for (const Mount& mount : assembly.mountsOf(joint.child)) {
    if (std::find(mount.joints.begin(), mount.joints.end(), id) == mount.joints.end()) continue;
    // Another mount may make a ring of what is a tree at home.
    Configuration home = assembly.home();
    for (std::size_t m = 0; m < assembly.mountsOf(joint.child).size(); ++m) {
      if (&assembly.mountsOf(joint.child)[m] == &mount) home.mounts[joint.child.index] = m;
    }
    if (!findRing(assembly, home)) standings.push_back(standingIn(subject, home, id, mount));
    for (std::size_t m = 0; m < subject.modes->size(); ++m) {
      const Configuration& values = (*subject.modes)[m].configuration;
      if (holdingMount(assembly, values, joint.child) != &mount) continue;
      standings.push_back(standingIn(subject, values, id, mount));
      standings.back().mode = ModeId{m};
    }
  }
  return standings;
}

std::vector<RigPart> placedRigParts(const std::vector<RigPart>& parts,
                                    const JointStanding& standing) {
  std::vector<RigPart> placedParts = parts;
  for (std::size_t p = 0; p < parts.size(); ++p) placedParts[p].X_WP = standing.X_WPs[p];
  return placedParts;
}

}  // namespace swingroom
