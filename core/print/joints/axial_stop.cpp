#include "core/print/joints/axial_stop.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/tree/ray_query.h"

namespace swingroom {
namespace {

constexpr double kStopReachMm = 1.5;
constexpr double kStopDeepestMm = 0.3;
constexpr double kStopCos = 0.95;     // Of a face across the axis.
constexpr double kStopSameMm = 0.05;  // Faces that stop at about the same travel.

/// A place where something stops the child on its way along the axis.
struct StopPlace {
  double travelMm = 0;
  double childAtMm = 0;  ///< Of the child's face, along the axis.
  double radiusMm = 0;
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
      (forwards ? forwards_ : backwards_).push_back({*travel, childAt, radius});
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

}  // namespace

std::optional<AxialStop> axialStopOf(const PrintSubject& subject, const std::vector<RigPart>& parts,
                                     const JointStanding& standing, const Vector3d& at_W,
                                     const Vector3d& along_W, double reachMm) {
  StopGatherer gatherer(parts, at_W, along_W, reachMm);
  double growth = 0;  // A side: the greatest of each side's parts.
  const auto growthOf = [&](const std::vector<PartId>& side) {
    double most = 0;
    for (const PartId part : side) {
      if (subject.print(part).printed)
        most = std::max(most, subject.print(part).process.growthOutsideMm.value);
    }
    return most;
  };
  for (const PartId child : standing.childSide) {
    for (const PartId parent : standing.parentSide) {
      const auto box = [&](PartId id) {
        const RigPart& part = parts[id.index];
        Eigen::AlignedBox3d b = part.shape->bounds.transformed(Eigen::Affine3d(part.X_WP));
        return Eigen::AlignedBox3d(b.min() - Vector3d::Constant(kStopReachMm),
                                   b.max() + Vector3d::Constant(kStopReachMm));
      };
      const Eigen::AlignedBox3d near(at_W - Vector3d::Constant(2 * reachMm),
                                     at_W + Vector3d::Constant(2 * reachMm));
      if (!box(child).intersects(box(parent)) || !box(child).intersects(near)) continue;
      gatherer.gather(child, parent, true);
      gatherer.gather(parent, child, false);
    }
  }
  auto stop = gatherer.stop();
  if (!stop) return stop;
  growth = growthOf(standing.childSide) + growthOf(standing.parentSide);
  stop->printedMm = stop->apartMm - 2 * growth;
  return stop;
}

}  // namespace swingroom
