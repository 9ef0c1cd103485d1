#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "core/motion/sequence.h"
#include "core/sweep/part_geometry.h"
#include "core/sweep/track.h"

namespace swingroom {

enum class TrackRole {
  outside,  ///< Judged by the required gap.
  zone,     ///< Both surfaces inside a joint zone: judged by the fit, or must only not touch.
  zoneRim,  ///< One surface inside a joint zone, the other outside: must only not touch.
  contact,  ///< Intended touch: what the excuse allows passes.
};

/// What an intended contact lets pass.
struct Excuse {
  double depthMm = 0;         ///< Overlaps up to this pass where excused.
  bool everywhere = false;    ///< In all of the track's phases.
  bool atStart = false;       ///< In the stretch that holds the sequence's first instant (a mode).
  bool atEnd = false;         ///< In the stretch that holds its last instant.
};

/// Two surfaces to follow through some phases, and how to judge what comes out.
struct PlannedTrack {
  TrackRole role = TrackRole::outside;
  std::shared_ptr<const Surface> a, b;
  std::vector<Phase> phases;
  double neededMm = 0;
  double mattersBelowMm = 0;
  Excuse excuse;
};

/// All that has to be followed of one pair through one sequence.
struct PairPlan {
  std::vector<std::unique_ptr<RelativeMotion>> motions;
  std::vector<Phase> phases;            ///< All, in order.
  std::vector<PlannedTrack> tracks;
  std::vector<JointId> zoneJoints;      ///< Joints between the two parts that have zones.
  double excusedAreaMm2 = 0;            ///< Of both parts, inside the zones.
  std::optional<double> fitMm;          ///< Of the first of `zoneJoints` that has one.
};

/// A gap matters this far above the required one, mm: there it is bracketed.
constexpr double kMattersAboveRequiredMm = 1.5;

/// Joints of the mount, if any, by which one of the parts hangs on the other in `configuration`.
std::vector<JointId> linksBetween(const Assembly& assembly, const Configuration& configuration, PartId a, PartId b);

/// The two surfaces that the required gap is about in `configuration`: outside the zones of the joints that
/// hold one part on the other.
struct JudgedSurfaces {
  std::shared_ptr<const Surface> a, b;
};
JudgedSurfaces judgedSurfaces(const Assembly& assembly, const Configuration& configuration,
                              const AssemblyGeometry& geometry, PartId a, PartId b);

/// Splits the pair's surfaces at joint zones and contact places and the sequence into phases.
PairPlan planPair(const Assembly& assembly, const Sequence& sequence,
                  const AssemblyGeometry& geometry, PartId a, PartId b, double resolutionMm);

}  // namespace swingroom
