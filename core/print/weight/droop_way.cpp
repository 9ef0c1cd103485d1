#include "core/print/weight/droop_way.h"

#include <algorithm>
#include <cmath>

#include "core/mesh/triangle_mesh.h"
#include "core/sweep/free_travel.h"

namespace swingroom {
namespace {

/// Enough for a limb of a figure; what is not proven free is taken as free no farther.
constexpr std::uint64_t kDroopBudget = 3'000'000;
/// Corners that stand on the floor already may sink in by so much, mm: rounding.
constexpr double kFloorRoundingMm = 1e-6;

class DroopSearch {
 public:
  DroopSearch(const DroopQuestion& question, const HungJoint& hung)
      : question_(question), hung_(hung), joint_(question.assembly->joint(hung.joint)) {
    slides_ = joint_.type == JointType::slide;
    sign_ = joint_.type != JointType::ball && hung.load.x() < 0 ? -1 : 1;
    axis_W_ = joint_.type == JointType::ball ? Vector3d(hung.load.normalized())
                                             : Vector3d(sign_ * hung.axis_W);
  }

  DroopWay run(const WorkMonitor& monitor) {
    way_.by = slides_ ? std::numeric_limits<double>::infinity() : freelyHanging();
    if (joint_.type != JointType::ball) {
      const double value = question_.standing->values.at(hung_.joint.index).x();
      const double left = sign_ > 0 ? joint_.range.max - value : value - joint_.range.min;
      if (left < way_.by) {
        way_.by = std::max(0.0, left);
        way_.toRange = true;
      }
    }
    stopAtFloor();
    stopAtParts(monitor);
    return way_;
  }

 private:
  double freelyHanging() const {
    const auto across = [&](const Vector3d& v) { return Vector3d(v - axis_W_ * axis_W_.dot(v)); };
    const Vector3d lever = across(hung_.hung.centre_W - hung_.point_W);
    const Vector3d down = across(-question_.up_W);
    return std::atan2(lever.cross(down).norm(), lever.dot(down));
  }

  void stopAtFloor() {
    if (!question_.floorMm) return;
    for (std::size_t i = 0; i < question_.assembly->parts().size(); ++i) {
      const Part& part = question_.assembly->part(PartId{i});
      if (!part.mesh || !question_.figure->hangsOn(PartId{i}, hung_.child)) continue;
      const Pose X = question_.figure->displacements()[i] * part.X_WP_home;
      for (const Vector3d& corner : part.mesh->vertices) stopCorner(X * corner);
    }
  }

  /// Height over the floor: c + a cos t + b sin t, or linear.
  void stopCorner(const Vector3d& p) {
    const Vector3d& up = question_.up_W;
    const double height = up.dot(p) - *question_.floorMm + kFloorRoundingMm;
    double until = std::numeric_limits<double>::infinity();
    if (slides_) {
      const double rate = up.dot(axis_W_);
      if (rate < 0) until = height / -rate;
    } else {
      const Vector3d arm = p - hung_.point_W, along = axis_W_ * axis_W_.dot(arm);
      const double a = up.dot(arm - along), b = up.dot(axis_W_.cross(arm)), c = height - a;
      const double size = std::hypot(a, b);
      if (size <= 1e-12 || std::abs(c) > size) return;
      // cos(t - phase) = -c / size, from above to below at phase + acos.
      double t = std::atan2(b, a) + std::acos(std::clamp(-c / size, -1.0, 1.0));
      while (t < 0) t += 2 * kPi;
      while (t >= 2 * kPi) t -= 2 * kPi;
      until = t;
    }
    if (until >= way_.by) return;
    way_.by = std::max(0.0, until);
    way_.meetsFloor = true;
    way_.toRange = false;
  }

  void stopAtParts(const WorkMonitor& monitor) {
    TravelQuestion travel;
    travel.drive.joint = hung_.joint;
    travel.budget = kDroopBudget;
    const double most = std::isfinite(way_.by) ? way_.by : 1000.0;
    if (joint_.type == JointType::ball)
      travel.drive.about = (hung_.D_before.linear().transpose() * axis_W_).normalized();
    const double value = driven(travel.drive, *question_.standing);
    travel.least = sign_ > 0 ? value : value - most;
    travel.greatest = sign_ > 0 ? value + most : value;
    const FreeTravel free =
        freeTravel(*question_.assembly, *question_.gaps, *question_.standing, travel, monitor);
    const TravelWay& taken = sign_ > 0 ? free.up : free.down;
    if (!taken.stop) return;
    const double by = std::abs(taken.freeTo - value);
    if (by >= way_.by) return;
    way_.by = by;
    way_.meets = std::pair(taken.stop->a, taken.stop->b);
    way_.meetsFloor = way_.toRange = false;
  }

  const DroopQuestion& question_;
  const HungJoint& hung_;
  const Joint& joint_;
  bool slides_ = false;
  int sign_ = 1;
  Vector3d axis_W_;
  DroopWay way_;
};

}  // namespace

DroopWay droopWay(const DroopQuestion& question, const HungJoint& hung,
                  const WorkMonitor& monitor) {
  return DroopSearch(question, hung).run(monitor);
}

}  // namespace swingroom
