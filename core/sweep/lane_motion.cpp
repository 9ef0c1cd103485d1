#include <algorithm>
#include <cmath>

#include "core/sweep/box_lanes.h"

namespace swingroom {
namespace {

using Node = BoundingTree::Node;

void copyTo(const Eigen::Vector3d& from, double* to) { std::copy(from.data(), from.data() + 3, to); }

LaneMotion::Field fieldOf(const TravelBounds& travel) {
  LaneMotion::Field field{};
  copyTo(travel.velocityAt(Eigen::Vector3d::Zero()), field.linear);
  copyTo(travel.angular(), field.angular);
  return field;
}

}  // namespace

LaneMotion::LaneMotion(const MotionPiece& piece, const Node& wholeB) : halfWidth(piece.halfWidth) {
  const MotionAtInstant& motion = piece.middle;
  const Eigen::Matrix3d R = motion.X_AB.linear();
  std::copy(R.data(), R.data() + 9, R_AB);
  copyTo(motion.X_AB.translation(), p_AB);
  const TravelBounds travel(motion, halfWidth);
  velocity = fieldOf(travel);
  moves = !motion.axes.empty() && halfWidth > 0;
  restMm = restForEachMm = 0;
  std::fill(bendLinear, bendLinear + 3, 0.0);
  std::fill(bendTurn, bendTurn + 9, 0.0);
  if (!moves) return;
  const Eigen::Vector3d centre = motion.X_AB * wholeB.centre;
  if (piece.together) {
    fields = {velocity};
    copyTo(travel.accelerationAt(Eigen::Vector3d::Zero()), bendLinear);
    std::copy(travel.bendTurn().data(), travel.bendTurn().data() + 9, bendTurn);
  } else {
    addFreedoms(motion);
  }
  const auto rests = piece.together ? travel.restsMm(centre, wholeB.radius) : travel.bendsMm(centre, wholeB.radius);
  for (std::size_t i = 0; i < motion.axes.size(); ++i) {
    if (rests[i] == 0) continue;
    Axis axis{};
    copyTo(motion.axes[i].point, axis.point);
    copyTo(motion.axes[i].direction, axis.direction);
    axis.turnedBeforeRad = travel.turnedBefore(i);
    axis.restMm = rests[i];
    restMm += rests[i];
    axes.push_back(axis);
  }
  if (piece.together && motion.axes.size() == 1 && !axes.empty()) {
    restForEachMm = std::pow(halfWidth * std::abs(motion.axes[0].turnRateRad), 3) / 6;
  }
}

/// Joints of one freedom go together.
void LaneMotion::addFreedoms(const MotionAtInstant& motion) {
  std::size_t count = 0;
  for (const MovingAxis& axis : motion.axes) count = std::max(count, axis.freedom + 1);
  for (std::size_t f = 0; f < count; ++f) {
    MotionAtInstant alone;
    for (const MovingAxis& axis : motion.axes) {
      if (axis.freedom == f) alone.axes.push_back(axis);
    }
    if (!alone.axes.empty()) fields.push_back(fieldOf(TravelBounds(alone, halfWidth)));
  }
}

PlacedTriangles placeTriangles(const LaneMotion& motion, const BoundingTree& treeB, const Node& leafB) {
  PlacedTriangles placed;
  const Eigen::Map<const Eigen::Matrix3d> R_AB(motion.R_AB);
  const Eigen::Map<const Eigen::Vector3d> p_AB(motion.p_AB);
  for (std::size_t lane = 0; lane < kLanes; ++lane) {
    const std::size_t t = leafB.first + std::min<std::size_t>(lane, leafB.count - 1);
    TriangleCorners corners;
    for (std::size_t k = 0; k < 3; ++k) {
      corners[k] = R_AB * treeB.triangles()[t][k] + p_AB;
      for (std::size_t x = 0; x < 3; ++x) placed.corner[k][x][lane] = corners[k][x];
    }
    const Eigen::Vector3d normal = (corners[1] - corners[0]).cross(corners[2] - corners[0]).normalized();
    for (std::size_t x = 0; x < 3; ++x) placed.normal[x][lane] = normal[x];
  }
  if (motion.restForEachMm > 0) {
    const Eigen::Map<const Eigen::Vector3d> point(motion.axes[0].point), direction(motion.axes[0].direction);
    const Eigen::Vector3d centre = R_AB * leafB.centre + p_AB;
    placed.fromAxisMm = (centre - point).cross(direction).norm() + leafB.radius;
  }
  return placed;
}

}  // namespace swingroom
