#include "app/window/rig/joint_marks.h"

namespace swingroom {
namespace {

constexpr double kReachMm = 4;  ///< How far an axis is drawn past its part.

/// The part's box, in its frame; null: it has no mesh. Asked in every frame of a scrub, so not for
/// vertices.
const BoundingTree::Node* boxOf(const Scene& scene, PartId part) {
  const auto& geometry = scene.geometry[part.index];
  return geometry ? &geometry->surface->tree.root() : nullptr;
}

/// The extent of a part's box along a line that is given where everything is at home.
std::pair<double, double> extentAlong(const Scene& scene, PartId part, const Joint& joint) {
  const auto* box = boxOf(scene, part);
  if (!box) return {-10, 10};
  const Pose& X_WP = scene.assembly().part(part).X_WP_home;
  const double middle = joint.along.dot(X_WP * box->centre - joint.through);
  const double half = (X_WP.linear().transpose() * joint.along).cwiseAbs().dot(box->half);
  return {middle - half - kReachMm, middle + half + kReachMm};
}

/// A slide without a point of its own is drawn through the part's middle.
Vector3d pointOf(const Scene& scene, PartId part, const Joint& joint) {
  const auto* box = boxOf(scene, part);
  if (joint.type != JointType::slide || !box) return joint.through;
  return scene.assembly().part(part).X_WP_home * box->centre;
}

}  // namespace

JointMarks jointMarks(const Scene& scene, const Configuration& standing,
                      const std::vector<PartId>& parts) {
  JointMarks marks;
  const Assembly& assembly = scene.assembly();
  const auto displaced = displacementsOf(assembly, standing);
  for (const PartId part : parts) {
    const Mount* mount = holdingMount(assembly, standing, part);
    if (!mount) continue;
    // Each joint is carried by the parent and by the joints before it.
    Pose D = mount->parent ? displaced[mount->parent->index] : Pose::Identity();
    for (const JointId id : mount->joints) {
      Joint joint = assembly.joint(id);
      joint.through = pointOf(scene, part, joint);
      const Vector3d along_W = D.linear() * joint.along;
      if (joint.type == JointType::hinge || joint.type == JointType::slide) {
        const auto [from, to] = extentAlong(scene, part, joint);
        // Its handle shows which way it goes.
        const bool plain = parts.size() == 1 && !joint.follows;
        marks.axes.push_back(
            {D * joint.through, along_W, from, to, true, joint.type == JointType::hinge, plain});
      }
      for (const JointZone& zone : joint.zones) {
        const bool ball = joint.type == JointType::ball;
        const double middle = ball ? 0 : (zone.fromMm + zone.toMm) / 2;
        const Vector3d centre = D * Vector3d(assembly.joint(id).through + middle * joint.along);
        marks.zones.push_back(
            {centre, along_W, zone.radiusMm, ball ? 0 : (zone.toMm - zone.fromMm) / 2});
      }
      D = D * displacementOf(assembly.joint(id), standing.values[id.index]);
    }
  }
  return marks;
}

}  // namespace swingroom
