#include "core/print/weight/hung_figure.h"

#include <algorithm>
#include <utility>

namespace swingroom {
namespace {

constexpr double kNewtonPerG = kStandardGravity / 1000;

/// What gravity does to a joint by one N of weight at `centre`.
Vector3d loadPerNewton(const Joint& joint, const HungJoint& hung, const Vector3d& centre,
                       const Vector3d& up_W) {
  if (joint.type == JointType::slide) return {-hung.axis_W.dot(up_W), 0, 0};
  const Vector3d torque = (centre - hung.point_W).cross(-up_W);
  if (joint.type == JointType::hinge) return {hung.axis_W.dot(torque), 0, 0};
  return joint.type == JointType::ball ? torque : Vector3d(Vector3d::Zero());
}

/// By PartId: has no joint, where a joint to the ground places what is looked at.
std::vector<bool> partsApart(const Assembly& assembly) {
  const auto& joints = assembly.joints();
  const bool placed = std::any_of(joints.begin(), joints.end(),
                                  [](const Joint& joint) { return !joint.parent.has_value(); });
  std::vector<bool> apart(assembly.parts().size(), placed);
  for (const Joint& joint : joints) {
    apart[joint.child.index] = false;
    if (joint.parent) apart[joint.parent->index] = false;
  }
  return apart;
}

}  // namespace

HungMass massOf(const std::vector<PartMass>& masses, const std::vector<Vector3d>& centres_W,
                const std::vector<bool>& parts) {
  HungMass sum;
  Vector3d moment = Vector3d::Zero();
  for (std::size_t i = 0; i < masses.size(); ++i) {
    if (!parts[i]) continue;
    if (!masses[i].known()) {
      ++sum.unknown;
      continue;
    }
    sum.lowerG += masses[i].lowerG;
    sum.massG += masses[i].massG;
    sum.upperG += masses[i].upperG;
    moment += masses[i].massG * centres_W[i];
  }
  if (sum.massG <= 0) return sum;
  sum.centre_W = moment / sum.massG;
  double off = 0;
  for (std::size_t i = 0; i < masses.size(); ++i) {
    if (!parts[i] || !masses[i].known()) continue;
    const double doubtG =
        std::max(masses[i].upperG - masses[i].massG, masses[i].massG - masses[i].lowerG);
    off += masses[i].upperG * masses[i].centreOffMm + doubtG * (centres_W[i] - sum.centre_W).norm();
  }
  sum.centreOffMm = off / std::max(sum.lowerG, 1e-12);
  return sum;
}

HungFigure::HungFigure(const Assembly& assembly, const Configuration& standing,
                       const std::vector<PartMass>& masses, const Vector3d& up_W)
    : displacements_(displacementsOf(assembly, standing)), apart_(partsApart(assembly)) {
  const std::size_t count = assembly.parts().size();
  for (std::size_t i = 0; i < count; ++i) {
    const Mount* mount = holdingMount(assembly, standing, PartId{i});
    parents_.push_back(mount ? mount->parent : std::nullopt);
    centres_.push_back(displacements_[i] *
                       (assembly.part(PartId{i}).X_WP_home * masses[i].centre_P));
  }
  for (std::size_t i = 0; i < count; ++i) {
    if (parents_[i]) addMount(assembly, standing, PartId{i});
  }
  std::sort(joints_.begin(), joints_.end(),
            [](const HungJoint& a, const HungJoint& b) { return a.joint < b.joint; });
  weigh(masses, up_W, assembly);
}

void HungFigure::addMount(const Assembly& assembly, const Configuration& standing, PartId child) {
  const Mount& mount = *holdingMount(assembly, standing, child);
  Pose D = displacements_[mount.parent->index];
  for (const JointId id : mount.joints) {
    const Joint& joint = assembly.joint(id);
    HungJoint hung;
    hung.joint = id;
    hung.parent = *mount.parent;
    hung.child = child;
    hung.D_before = D;
    D = D * displacementOf(joint, standing.values.at(id.index));
    hung.point_W = D * joint.through;
    hung.axis_W = D.linear() * joint.along;
    joints_.push_back(hung);
  }
}

bool HungFigure::hangsOn(PartId part, PartId root) const {
  for (std::optional<PartId> at = part; at; at = parents_[at->index]) {
    if (*at == root) return true;
  }
  return false;
}

void HungFigure::weigh(const std::vector<PartMass>& masses, const Vector3d& up_W,
                       const Assembly& assembly) {
  std::vector<bool> figure = apart_;
  figure.flip();
  whole_ = massOf(masses, centres_, figure);
  for (HungJoint& hung : joints_) {
    const Joint& joint = assembly.joint(hung.joint);
    if (joint.type == JointType::fixed) continue;
    std::vector<bool> parts(masses.size(), false);
    for (std::size_t i = 0; i < masses.size(); ++i) parts[i] = hangsOn(PartId{i}, hung.child);
    hung.hung = massOf(masses, centres_, parts);
    for (std::size_t i = 0; i < masses.size(); ++i) {
      if (!parts[i] || !masses[i].known()) continue;
      const Vector3d per = loadPerNewton(joint, hung, centres_[i], up_W);
      hung.load += masses[i].massG * kNewtonPerG * per;
      const double doubtG =
          std::max(masses[i].upperG - masses[i].massG, masses[i].massG - masses[i].lowerG);
      const double off = joint.type == JointType::slide ? 0 : masses[i].centreOffMm;
      hung.loadOff += kNewtonPerG * (doubtG * per.norm() + masses[i].upperG * off);
    }
  }
}

}  // namespace swingroom
