#pragma once

#include <vector>

#include "core/motion/joint_inference.h"

namespace swingroom {

/// The same joints in the order in which one would tell them: from the ground outwards, each
/// branch to its end, branches in order of their parts. Joints of one part stay in order.
/// @throws std::invalid_argument if they form a ring.
std::vector<InferredJoint> toldInOrder(const std::vector<InferredJoint>& joints,
                                       std::size_t partCount);

}  // namespace swingroom
