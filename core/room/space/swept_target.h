#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include "core/motion/travel.h"
#include "core/room/space/room_space.h"
#include "core/room/space/segment_distance.h"

namespace swingroom {

/// How the region R that is looked at stands in a surface's frame S while one step goes on. A point of
/// R goes along a smooth curve in S; between two instants it is off the straight line by less than
/// `bendMm`.
class RegionPath {
 public:
  /// One pose for all of the step.
  explicit RegionPath(const Pose& X_SR);
  /// @param motion  Of one step, not of any order; only read here.
  /// @param regionIsB  R is the frame of the motion's second part.
  /// @param ball_R  Centre of a ball that holds all of R. @param radius  Its radius.
  RegionPath(const RelativeMotion& motion, bool regionIsB, const Vector3d& ball_R, double radius);
  /// One joint's way (and that of those that follow it) in a step of any order, the others about where `parts` says.
  /// @param freedom  The one that goes all its way. @param slackMm  So far can the others shift any point of R.
  RegionPath(const RelativeMotion& motion, bool regionIsB, const Vector3d& ball_R, double radius,
             std::vector<double> parts, std::size_t freedom, double slackMm);

  bool isConstant() const { return poses_.size() == 1; }
  /// Finest level: its pieces are 2^-level of the step.
  unsigned levels() const { return levels_; }
  /// Pose at the start of piece `index` of `level`, which is the end of the one before.
  const Pose& X_SR(unsigned level, std::uint32_t index) const {
    return poses_[static_cast<std::size_t>(index) << (levels_ - level)];
  }
  /// Most that a point within `radius` of `centre_R` is off its straight line in a piece of level 0, mm;
  /// in one of level n a 4^n-th of it.
  double bendMm(const Vector3d& centre_R, double radius) const;
  /// How far a point may be, beside that, from where its path says.
  double slackMm() const { return slackMm_; }

 private:
  template <typename PoseAt>
  void setPoses(const Vector3d& ball_R, double radius, double fineMm, const PoseAt& poseAt);

  std::vector<Pose> poses_;
  unsigned levels_ = 0;
  double slackMm_ = 0;
  std::shared_ptr<const MotionAtInstant> middle_;  ///< TravelBounds keeps a reference to its axes.
  std::shared_ptr<const TravelBounds> bounds_;
};

/// A surface that the region has to keep clear of, and how the region passes it.
struct SweptTarget {
  PartId part;
  std::shared_ptr<const Surface> surface;
  double neededMm = 0;
  double keptMm = 0;  ///< Distance to be kept, the grid's margin included.
  std::shared_ptr<const std::vector<TriangleBound>> bounds;  ///< By the tree's order of triangles.
  std::vector<RegionPath> paths;
};

std::shared_ptr<const std::vector<TriangleBound>> boundsOf(const BoundingTree& tree);

}  // namespace swingroom
