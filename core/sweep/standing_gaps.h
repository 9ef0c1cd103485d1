#pragma once

#include <map>
#include <optional>
#include <vector>

#include "core/assembly/assembly.h"
#include "core/sweep/part_geometry.h"
#include "core/sweep/plan.h"

namespace swingroom {

/// The gap of two parts where everything stands still.
struct StandingGap {
  PartId a, b;       ///< a before b.
  double gapMm = 0;  ///< 0: they touch, cross, or one is wholly inside the other.
  bool meets = false;
  bool inside = false;  ///< One is wholly inside the other's material.
  std::array<Vector3d, 2> points_W{Vector3d::Zero(), Vector3d::Zero()};  ///< Not set if `meets`.
};

/// Answers for any way in which an assembly may stand: while a joint is dragged, or on the way. Of
/// the surfaces that the required gap is about: joint zones are cut away, contacts are not looked
/// at. What is found says nothing about the instants between.
/// Keeps its own copy of what it needs; const, safe from several threads.
class StandingGaps {
 public:
  StandingGaps(const Assembly& assembly, const AssemblyGeometry& geometry);

  /// Pairs nearer than their required gap + `aboveMm`, nearest to it (or deepest below it) first.
  std::vector<StandingGap> nearPairs(const Configuration& standing,
                                     double aboveMm = kMattersAboveRequiredMm) const;

  /// @returns Nothing if the pair is not nearer than `withinMm`, or a part has no mesh.
  std::optional<StandingGap> gapOf(const Configuration& standing, PartId a, PartId b,
                                   double withinMm) const;

  /// The surfaces that are judged while the pair stands so. Both parts have meshes.
  const JudgedSurfaces& surfacesOf(const Configuration& standing, PartId a, PartId b) const;
  const Solid& solidOf(PartId part) const { return geometry_.at(part.index)->solid; }

 private:
  std::optional<StandingGap> measure(const Configuration& standing, const std::vector<Pose>& X_WPs,
                                     PartId a, PartId b, double withinMm) const;
  bool isInside(PartId a, PartId b, const Pose& X_AB) const;
  bool anyInside(PartId inner, PartId outer, const Pose& X_OuterInner) const;

  Assembly assembly_;
  AssemblyGeometry geometry_;
  std::vector<std::vector<JudgedSurfaces>> hung_;  ///< By child and mount: lower id first.
  std::map<std::pair<PartId, PartId>, JudgedSurfaces>
      whole_;  ///< Of pairs that do not hang together.
};

}  // namespace swingroom
