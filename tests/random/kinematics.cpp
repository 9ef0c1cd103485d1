#include "tests/random/kinematics.h"

#include <algorithm>
#include <cmath>

namespace swingroom::random_suite {
namespace {

using Eigen::AngleAxisd;
using Eigen::Matrix3d;
using Eigen::Translation3d;
using Eigen::Vector3d;

Matrix3d turnOf(const Vector3d& rotationVector) {
  const double angle = rotationVector.norm();
  return angle > 0 ? AngleAxisd(angle, rotationVector / angle).toRotationMatrix()
                   : Matrix3d(Matrix3d::Identity());
}

/// The one rotation, seen from the parent, that takes a ball from `start` to `end` the short way.
AngleAxisd shortTurn(const Vector3d& start, const Vector3d& end) {
  return AngleAxisd(Matrix3d(turnOf(end) * turnOf(start).transpose()));
}

Pose jointPose(const Joint& joint, const Vector3d& start, const Vector3d& end, double share) {
  Pose X = Pose::Identity();
  const Translation3d there(joint.through), back(-joint.through);
  const double value = start.x() + share * (end.x() - start.x());
  if (joint.type == JointType::hinge) X = there * AngleAxisd(value, joint.along) * back;
  if (joint.type == JointType::slide) X = Translation3d(value * joint.along);
  if (joint.type == JointType::ball) {
    const AngleAxisd turn = shortTurn(start, end);
    X = there * AngleAxisd(share * turn.angle(), turn.axis()) * back;
    X = X * Pose(there * AngleAxisd(turnOf(start)) * back);
  }
  return X;
}

}  // namespace

PairKinematics::PairKinematics(const Assembly& assembly, const Sequence& sequence, PartId a,
                               PartId b)
    : assembly_(assembly),
      sequence_(sequence),
      a_(a),
      b_(b),
      chainA_(chainOf(a)),
      chainB_(chainOf(b)) {
  while (!chainA_.empty() && !chainB_.empty() && chainA_.front() == chainB_.front()) {
    chainA_.erase(chainA_.begin());
    chainB_.erase(chainB_.begin());
  }
}

std::vector<JointId> PairKinematics::chainOf(PartId part) const {
  std::vector<JointId> chain;
  std::optional<PartId> parent;
  for (std::size_t j = 0; j < assembly_.joints().size(); ++j) {
    const Joint& joint = assembly_.joints()[j];
    if (joint.child != part) continue;
    chain.push_back(JointId{j});
    parent = joint.parent;
  }
  if (!parent) return chain;
  std::vector<JointId> whole = chainOf(*parent);
  whole.insert(whole.end(), chain.begin(), chain.end());
  return whole;
}

template <typename PoseOf>
Pose PairKinematics::worldPose(PartId part, const PoseOf& poseOf) const {
  Pose X = Pose::Identity();
  for (const JointId id : chainOf(part)) X = X * poseOf(id.index);
  return X * assembly_.parts()[part.index].X_WP_home;
}

Pose PairKinematics::at(std::size_t step, const std::vector<double>& shares) const {
  const auto& [name, order, start, end] = sequence_.steps[step];
  const auto poseOf = [&, &from = start.values, &to = end.values](std::size_t j) {
    return jointPose(assembly_.joints()[j], from[j], to[j], shares[j]);
  };
  return worldPose(a_, poseOf).inverse() * worldPose(b_, poseOf);
}

Pose PairKinematics::at(const std::vector<JointValue>& values) const {
  const auto poseOf = [&](std::size_t j) {
    return jointPose(assembly_.joints()[j], values[j], values[j], 0);
  };
  return worldPose(a_, poseOf).inverse() * worldPose(b_, poseOf);
}

Pose PairKinematics::at(double instant) const {
  const double scaled = instant * static_cast<double>(steps());
  const std::size_t step = std::min(static_cast<std::size_t>(scaled), steps() - 1);
  return at(step,
            std::vector<double>(assembly_.joints().size(), scaled - static_cast<double>(step)));
}

double PairKinematics::speedOf(PartId part, const std::vector<JointId>& chain,
                               std::size_t step) const {
  // A ball round the part that grows by what each joint, from the part inwards, can carry it.
  const Part& of = assembly_.parts()[part.index];
  const Eigen::AlignedBox3d box = boundsOf(*of.mesh);
  Vector3d centre = of.X_WP_home * box.center();
  double radius = box.diagonal().norm() / 2, speed = 0;
  for (auto id = chain.rbegin(); id != chain.rend(); ++id) {
    const Joint& joint = assembly_.joints()[id->index];
    const Vector3d& start = sequence_.steps[step].start.values[id->index];
    const Vector3d& end = sequence_.steps[step].end.values[id->index];
    if (joint.type == JointType::slide) {
      speed += std::abs(end.x() - start.x());
      radius += std::max(std::abs(start.x()), std::abs(end.x()));
      continue;
    }
    const double turn = joint.type == JointType::ball ? shortTurn(start, end).angle()
                                                      : std::abs(end.x() - start.x());
    radius += (centre - joint.through).norm();
    centre = joint.through;
    speed += turn * radius;
  }
  return speed;
}

double PairKinematics::speedBound(std::size_t step) const {
  return speedOf(a_, chainA_, step) + speedOf(b_, chainB_, step);
}

std::vector<JointId> PairKinematics::movers(std::size_t step) const {
  std::vector<JointId> moving;
  for (const auto* chain : {&chainA_, &chainB_}) {
    for (const JointId id : *chain) {
      const auto& [name, order, start, end] = sequence_.steps[step];
      if (start.values[id.index] != end.values[id.index]) moving.push_back(id);
    }
  }
  return moving;
}

bool PairKinematics::isFree(std::size_t step) const {
  return sequence_.steps[step].order == StepOrder::free && movers(step).size() > 1;
}

bool PairKinematics::anyFree() const {
  for (std::size_t s = 0; s < steps(); ++s) {
    if (isFree(s)) return true;
  }
  return false;
}

}  // namespace swingroom::random_suite
