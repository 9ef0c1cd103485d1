#include "core/motion/joint_order.h"

#include <algorithm>
#include <set>
#include <stdexcept>

namespace swingroom {
namespace {

class Teller {
 public:
  Teller(const std::vector<InferredJoint>& joints, std::size_t partCount)
      : joints_(joints), children_(partCount) {
    std::set<std::size_t> hanging;
    std::set<std::size_t> onGround;
    for (const InferredJoint& joint : joints) {
      const std::size_t child = joint.joint.child.index;
      hanging.insert(child);
      (joint.joint.parent ? children_.at(joint.joint.parent->index) : onGround).insert(child);
    }
    for (std::size_t part = 0; part < partCount; ++part) {
      if (!hanging.contains(part)) onGround.insert(part);
    }
    for (const std::size_t part : onGround) tell(part);
  }

  std::vector<InferredJoint> told() { return std::move(told_); }

 private:
  void tell(std::size_t part) {
    for (const InferredJoint& joint : joints_) {
      if (joint.joint.child.index == part) told_.push_back(joint);
    }
    for (const std::size_t child : children_[part]) tell(child);
  }

  const std::vector<InferredJoint>& joints_;
  std::vector<std::set<std::size_t>> children_;  // By part.
  std::vector<InferredJoint> told_;
};

}  // namespace

std::vector<InferredJoint> toldInOrder(const std::vector<InferredJoint>& joints,
                                       std::size_t partCount) {
  std::vector<InferredJoint> told = Teller(joints, partCount).told();
  if (told.size() != joints.size()) throw std::invalid_argument("toldInOrder: joints form a ring");
  return told;
}

}  // namespace swingroom
