#include "core/files/scenes/keyed_pose.h"

#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

constexpr double kOneKeyS = 1e-6;
constexpr double kNearlyAlong = 1 - 1e-12;

/// Spherical linear interpolation, the short way.
Eigen::Vector4d turnedBetween(const Eigen::Vector4d& a, Eigen::Vector4d b, double share) {
  double cosine = a.dot(b);
  if (cosine < 0) {
    b = -b;
    cosine = -cosine;
  }
  if (cosine > kNearlyAlong) return ((1 - share) * a + share * b).normalized();
  const double angle = std::acos(cosine);
  return (std::sin((1 - share) * angle) * a + std::sin(share * angle) * b) / std::sin(angle);
}

/// glTF 2.0 Specification, appendix C.5.
Eigen::Vector4d splineBetween(const SceneTrack& track, std::size_t k, double share) {
  const double t = share, t2 = t * t, t3 = t2 * t;
  const double lengthS = track.timesS[k + 1] - track.timesS[k];
  const Eigen::Vector4d& from = track.values[3 * k + 1];
  const Eigen::Vector4d& leaving = track.values[3 * k + 2];
  const Eigen::Vector4d& arriving = track.values[3 * (k + 1)];
  const Eigen::Vector4d& to = track.values[3 * (k + 1) + 1];
  return (2 * t3 - 3 * t2 + 1) * from + lengthS * (t3 - 2 * t2 + t) * leaving +
         (-2 * t3 + 3 * t2) * to + lengthS * (t3 - t2) * arriving;
}

const Eigen::Vector4d& keyOf(const SceneTrack& track, std::size_t k) {
  return track.way == KeyedWay::cubic ? track.values[3 * k + 1] : track.values[k];
}

Eigen::Vector4d rawValueAt(const SceneTrack& track, double timeS) {
  const auto next = std::upper_bound(track.timesS.begin(), track.timesS.end(), timeS);
  if (next == track.timesS.begin()) return keyOf(track, 0);
  const auto k = static_cast<std::size_t>(next - track.timesS.begin()) - 1;
  if (next == track.timesS.end() || track.way == KeyedWay::step) return keyOf(track, k);
  const double share = (timeS - track.timesS[k]) / (*next - track.timesS[k]);
  if (track.way == KeyedWay::cubic) return splineBetween(track, k, share);
  const Eigen::Vector4d &a = keyOf(track, k), &b = keyOf(track, k + 1);
  if (track.quantity != KeyedQuantity::rotation) return (1 - share) * a + share * b;
  return turnedBetween(a.normalized(), b.normalized(), share);
}

void apply(const SceneTrack& track, double timeS, SceneNode& node) {
  const Eigen::Vector4d value = valueAt(track, timeS);
  switch (track.quantity) {
    case KeyedQuantity::translation:
      node.translation = value.head<3>();
      break;
    case KeyedQuantity::rotation:
      node.rotation.coeffs() = value;
      break;
    case KeyedQuantity::scale:
      node.scale = value.head<3>();
      break;
  }
}

}  // namespace

Eigen::Affine3d localOf(const SceneNode& node) {
  if (node.matrix) return *node.matrix;
  return Eigen::Translation3d(node.translation) * node.rotation * Eigen::Scaling(node.scale);
}

Eigen::Vector4d valueAt(const SceneTrack& track, double timeS) {
  const Eigen::Vector4d value = rawValueAt(track, timeS);
  if (track.quantity != KeyedQuantity::rotation) return value;
  const double norm = value.norm();
  return norm > 1e-12 ? Eigen::Vector4d(value / norm) : Eigen::Vector4d(0, 0, 0, 1);
}

std::vector<Eigen::Affine3d> nodePlaces(const std::vector<SceneNode>& nodes,
                                        const SceneAnimation* animation, double timeS) {
  std::vector<SceneNode> now = nodes;
  if (animation) {
    for (const SceneTrack& track : animation->tracks) apply(track, timeS, now.at(track.node));
  }
  std::vector<Eigen::Affine3d> places;
  for (const SceneNode& node : now) {
    const Eigen::Affine3d local = localOf(node);
    places.push_back(node.parent ? places.at(*node.parent) * local : local);
  }
  return places;
}

std::vector<double> keyedTimes(const SceneAnimation& animation) {
  std::vector<double> all;
  for (const SceneTrack& track : animation.tracks) {
    all.insert(all.end(), track.timesS.begin(), track.timesS.end());
  }
  std::sort(all.begin(), all.end());
  std::vector<double> times;
  for (const double time : all) {
    if (times.empty() || time - times.back() > kOneKeyS) times.push_back(time);
  }
  return times;
}

}  // namespace swingroom
