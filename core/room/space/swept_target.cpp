#include "core/room/space/swept_target.h"

#include <cmath>

namespace swingroom {
namespace {

/// Straight pieces of a curve are fine enough when they are off it by less, mm.
constexpr double kFineBendMm = 2e-4;
/// And short enough that their boxes are tight, mm.
constexpr double kShortMm = 1;
constexpr unsigned kMostLevels = 12;

MotionAtInstant regionMotion(const RelativeMotion& motion, bool regionIsB, double part) {
  const MotionAtInstant at = motion.at(part);
  return regionIsB ? at : seenFromB(at);
}

}  // namespace

RegionPath::RegionPath(const Pose& X_SR) : poses_{X_SR} {}

RegionPath::RegionPath(const RelativeMotion& motion, bool regionIsB, const Vector3d& ball_R, double radius)
    : middle_(std::make_shared<const MotionAtInstant>(regionMotion(motion, regionIsB, 0.5))) {
  if (motion.isConstant()) {
    poses_ = {middle_->X_AB};
    return;
  }
  bounds_ = std::make_shared<const TravelBounds>(*middle_, 0.5);
  double bend = bendMm(ball_R, radius);
  double way = 2 * bounds_->travelMm(middle_->X_AB * ball_R, radius);
  for (; (bend > kFineBendMm || way > kShortMm) && levels_ < kMostLevels; bend /= 4, way /= 2) ++levels_;
  const std::uint32_t count = 1u << levels_;
  poses_.reserve(count + 1);
  for (std::uint32_t i = 0; i <= count; ++i) {
    poses_.push_back(regionMotion(motion, regionIsB, static_cast<double>(i) / count).X_AB);
  }
}

double RegionPath::bendMm(const Vector3d& centre_R, double radius) const {
  if (!bounds_) return 0;
  return bounds_->bendMm(middle_->X_AB * centre_R, radius) + 1e-9;
}

std::shared_ptr<const std::vector<TriangleBound>> boundsOf(const BoundingTree& tree) {
  return std::make_shared<const std::vector<TriangleBound>>(tree.triangles().begin(), tree.triangles().end());
}

}  // namespace swingroom
