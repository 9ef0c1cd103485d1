#include "core/room/space/swept_target.h"

#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

/// Straight pieces of a curve are fine enough when they are off it by less, mm.
constexpr double kFineBendMm = 2e-4;
/// And short enough that their boxes are tight, mm.
constexpr double kShortMm = 1;
constexpr unsigned kMostLevels = 12;

MotionAtInstant seenFrom(const MotionAtInstant& motion, bool regionIsB) {
  return regionIsB ? motion : seenFromB(motion);
}

}  // namespace

RegionPath::RegionPath(const Pose& X_SR) : poses_{X_SR} {}

RegionPath::RegionPath(const RelativeMotion& motion, bool regionIsB, const Vector3d& ball_R, double radius)
    : middle_(std::make_shared<const MotionAtInstant>(seenFrom(motion.at(0.5), regionIsB))) {
  if (motion.isConstant()) {
    poses_ = {middle_->X_AB};
    return;
  }
  setPoses(ball_R, radius, kFineBendMm, [&](double part) { return seenFrom(motion.at(part), regionIsB).X_AB; });
}

RegionPath::RegionPath(const RelativeMotion& motion, bool regionIsB, const Vector3d& ball_R, double radius,
                       std::vector<double> parts, std::size_t freedom, double slackMm)
    : slackMm_(slackMm) {
  parts[freedom] = 0.5;
  MotionAtInstant middle = seenFrom(motion.at(parts), regionIsB);
  std::erase_if(middle.axes, [&](const MovingAxis& axis) { return axis.freedom != freedom; });
  middle_ = std::make_shared<const MotionAtInstant>(std::move(middle));
  setPoses(ball_R, radius, std::max(kFineBendMm, 0.1 * slackMm), [&](double part) {
    parts[freedom] = part;
    return seenFrom(motion.at(parts), regionIsB).X_AB;
  });
}

template <typename PoseAt>
void RegionPath::setPoses(const Vector3d& ball_R, double radius, double fineMm, const PoseAt& poseAt) {
  bounds_ = std::make_shared<const TravelBounds>(*middle_, 0.5);
  double bend = bendMm(ball_R, radius);
  double way = 2 * bounds_->travelMm(middle_->X_AB * ball_R, radius);
  for (; (bend > fineMm || way > kShortMm) && levels_ < kMostLevels; bend /= 4, way /= 2) ++levels_;
  const std::uint32_t count = 1u << levels_;
  poses_.reserve(count + 1);
  for (std::uint32_t i = 0; i <= count; ++i) poses_.push_back(poseAt(static_cast<double>(i) / count));
}

double RegionPath::bendMm(const Vector3d& centre_R, double radius) const {
  if (!bounds_) return 0;
  return bounds_->bendMm(middle_->X_AB * centre_R, radius) + 1e-9;
}

std::shared_ptr<const std::vector<TriangleBound>> boundsOf(const BoundingTree& tree) {
  return std::make_shared<const std::vector<TriangleBound>>(tree.triangles().begin(), tree.triangles().end());
}

}  // namespace swingroom
