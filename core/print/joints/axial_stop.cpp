#include "core/print/joints/axial_stop.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/tree/ray_query.h"

namespace swingroom {
namespace {

constexpr double kStopReachMm = 1.5;
constexpr double kStopDeepestMm = 0.3;
constexpr double kStopCos = 0.95;  // Of a face across the axis.
constexpr double kStopFaceMm = 1e-3;
constexpr double kStopSameMm = 0.05;  // Faces that stop at about the same travel.

/// A place where something stops the child on its way along the axis.
struct StopPlace {
  double travelMm = 0;
  double childAtMm = 0;  ///< Of the child's face, along the axis.
  double radiusMm = 0;
  Vector3d at_W = Vector3d::Zero();   ///< On the face that was looked from,
  Vector3d way_W = Vector3d::Zero();  ///< out of its part.
  PartId of, against;                 ///< Whose face it is, and what lies ahead of it.
  bool ofChild = false;
};

using StopPlaces = std::vector<StopPlace>;

/// What lies ahead of a face along its normal; negative: it stands in the other part already.
std::optional<double> aheadOfFace(const BoundingTree& other, const Vector3d& p, const Vector3d& way,
                                  const Vector3d& normal) {
  // Begun a little behind, so that faces that overlap are seen; they must look the other way.
  const auto hit = firstHit(other, p - kStopDeepestMm * way, way, kStopReachMm + kStopDeepestMm);
  if (!hit) return std::nullopt;
  const TriangleCorners& t = other.triangles()[hit->triangle];
  if ((t[1] - t[0]).cross(t[2] - t[0]).dot(normal) >= 0) return std::nullopt;
  return hit->distanceMm - kStopDeepestMm;
}

class StopGatherer {
 public:
  StopGatherer(const std::vector<RigPart>& parts, const Vector3d& at, const Vector3d& along,
               double reach)
      : parts_(parts), at_(at), along_(along), reach_(reach) {}

  /// Faces of `of` against `against`. @param isChild  `of` is the child's.
  void gather(PartId of, PartId against, bool isChild) {
    const RigPart &from = parts_[of.index], &to = parts_[against.index];
    const Pose X_TW = to.X_WP.inverse();
    for (const SurfaceSample& sample : from.shape->samples) {
      const Vector3d n = from.X_WP.linear() * sample.normal;
      const double facing = n.dot(along_);
      if (std::abs(facing) < kStopCos) continue;
      const Vector3d p = from.X_WP * sample.point, w = p - at_;
      const double along = w.dot(along_), radius = (w - along * along_).norm();
      if (radius > reach_) continue;
      const Vector3d way = facing > 0 ? along_ : -along_;
      const auto travel =
          aheadOfFace(to.shape->tree, X_TW * p, X_TW.linear() * way, X_TW.linear() * n);
      if (!travel) continue;
      // A face of the parent's that looks along the axis stops the child on its way back.
      const bool forwards = (facing > 0) == isChild;
      const double childAt = isChild ? along : along + (facing > 0 ? *travel : -*travel);
      (forwards ? forwards_ : backwards_)
          .push_back({*travel, childAt, radius, p, way, of, against, isChild});
    }
  }

  std::optional<AxialStop> stop() const {
    if (forwards_.empty() || backwards_.empty()) return std::nullopt;
    const StopPlace &ahead = nearest(forwards_), &behind = nearest(backwards_);
    AxialStop stop;
    stop.apartMm = ahead.travelMm + behind.travelMm;
    // Of the child, or of the parent where the child's faces are outside of it.
    const double child = ahead.childAtMm - behind.childAtMm;
    stop.lugMm = child > 0 ? child : -child - stop.apartMm;
    stop.cheekMm = std::min(cheekOf(ahead, child < 0), cheekOf(behind, child < 0));
    const auto [innerAhead, outerAhead] = ringOf(forwards_, ahead.travelMm);
    const auto [innerBehind, outerBehind] = ringOf(backwards_, behind.travelMm);
    stop.radiusMm = std::min(outerAhead, outerBehind);
    stop.innerMm = std::max(innerAhead, innerBehind);
    return stop;
  }

 private:
  static const StopPlace& nearest(const StopPlaces& places) {
    return *std::min_element(
        places.begin(), places.end(),
        [](const StopPlace& a, const StopPlace& b) { return a.travelMm < b.travelMm; });
  }
  /// Thickness of the outer part behind the face that stops.
  double cheekOf(const StopPlace& place, bool ofChild) const {
    const bool own = place.ofChild == ofChild;
    const RigPart& part = parts_[(own ? place.of : place.against).index];
    const Vector3d way = own ? Vector3d(-place.way_W) : place.way_W;
    const Vector3d face = own ? place.at_W : Vector3d(place.at_W + place.travelMm * place.way_W);
    const Pose X_PW = part.X_WP.inverse();
    const auto out =
        firstHit(part.shape->tree, X_PW * (face + kStopFaceMm * way), X_PW.linear() * way);
    return out ? out->distanceMm + kStopFaceMm : 0;
  }

  static std::pair<double, double> ringOf(const StopPlaces& places, double travel) {
    double inner = std::numeric_limits<double>::infinity(), outer = 0;
    for (const StopPlace& place : places) {
      if (place.travelMm > travel + kStopSameMm) continue;
      inner = std::min(inner, place.radiusMm);
      outer = std::max(outer, place.radiusMm);
    }
    return {inner, outer};
  }

  const std::vector<RigPart>& parts_;
  Vector3d at_, along_;
  double reach_ = 0;
  StopPlaces forwards_, backwards_;
};

/// A side: the greatest of what moves together.
double stopGrowth(const PrintSubject& subject, const std::vector<PartId>& side) {
  double most = 0;
  for (const PartId part : side) {
    if (subject.print(part).printed)
      most = std::max(most, subject.print(part).process.growthOutsideMm.value);
  }
  return most;
}

Eigen::AlignedBox3d grownBox(const RigPart& part) {
  const Eigen::AlignedBox3d box = part.shape->bounds.transformed(Eigen::Affine3d(part.X_WP));
  const Vector3d reach = Vector3d::Constant(kStopReachMm);
  return {box.min() - reach, box.max() + reach};
}

}  // namespace

std::optional<AxialStop> axialStopOf(const PrintSubject& subject, const std::vector<RigPart>& parts,
                                     const JointStanding& standing, const Vector3d& at_W,
                                     const Vector3d& along_W, double reachMm) {
  StopGatherer gatherer(parts, at_W, along_W, reachMm);
  const Vector3d reach = Vector3d::Constant(2 * reachMm);
  const Eigen::AlignedBox3d near(at_W - reach, at_W + reach);
  for (const PartId child : standing.childSide) {
    const Eigen::AlignedBox3d box = grownBox(parts[child.index]);
    for (const PartId parent : standing.parentSide) {
      if (!box.intersects(near) || !box.intersects(grownBox(parts[parent.index]))) continue;
      gatherer.gather(child, parent, true);
      gatherer.gather(parent, child, false);
    }
  }
  auto stop = gatherer.stop();
  if (!stop) return stop;
  const double growth =
      stopGrowth(subject, standing.childSide) + stopGrowth(subject, standing.parentSide);
  stop->printedMm = stop->apartMm - 2 * growth;
  return stop;
}

}  // namespace swingroom
