#include "core/assembly/part_tree.h"

namespace swingroom {

PartTree::PartTree(const Assembly& assembly, const Configuration& configuration)
    : assembly_(&assembly), poses_(posesOf(assembly, configuration)) {
  for (PartId part; part.index < poses_.size(); ++part.index) {
    const Mount* mount = holdingMount(assembly, configuration, part);
    parents_.push_back(mount ? mount->parent : std::nullopt);
    Pose D = Pose::Identity();
    for (const JointId id : mount ? mount->joints : std::vector<JointId>{}) {
      D = D * displacementOf(assembly.joint(id), configuration.values.at(id.index));
    }
    onParent_.push_back(D);
  }
  for (PartId part; part.index < poses_.size(); ++part.index) {
    std::size_t depth = 0;
    for (auto above = parents_[part.index]; above; above = parents_[above->index]) ++depth;
    depths_.push_back(depth);
  }
}

Pose PartTree::relativePose(PartId a, PartId b) const {
  Pose D_A = Pose::Identity(), D_B = Pose::Identity();
  std::optional<PartId> fromA = a, fromB = b;
  while (fromA != fromB) {
    const bool climbA = fromA && (!fromB || depths_[fromA->index] >= depths_[fromB->index]);
    std::optional<PartId>& from = climbA ? fromA : fromB;
    Pose& D = climbA ? D_A : D_B;
    D = onParent_[from->index] * D;
    from = parents_[from->index];
  }
  const Pose D_AB = D_A.inverse() * D_B;
  return assembly_->part(a).X_WP_home.inverse() * D_AB * assembly_->part(b).X_WP_home;
}

}  // namespace swingroom
