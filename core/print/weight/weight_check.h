#pragma once

#include <vector>

#include "core/base/work_monitor.h"
#include "core/print/finding.h"
#include "core/print/joints/joint_friction.h"
#include "core/print/subject.h"
#include "core/print/weight/figure_stand.h"
#include "core/print/weight/hold.h"
#include "core/print/weight/way_loads.h"

namespace swingroom {

/// How the figure stands and holds in one mode.
struct ModeWeight {
  ModeId mode;
  FigureStand standing;
  /// It does not stand there: its joints are judged as if a hand held what stands on the ground.
  bool inHand = false;
  std::vector<JointHold> joints;

  bool operator==(const ModeWeight&) const = default;
};

/// Masses, what hangs on joints, what holds it, and how the figure stands. Joints to the ground
/// only place the figure and are not judged. Grips, clicks, fixed joints and ends of ranges are
/// taken to hold; all parts as rigid and joints as without play.
struct WeightResult {
  std::vector<PartMass> masses;  ///< By PartId.
  HungMass whole;                ///< Its centre: as in the first mode.
  std::vector<ModeWeight> modes;
  std::vector<WorstLoad> worst;         ///< Anywhere on the ways, as in a hand.
  std::vector<JointFriction> friction;  ///< What was asked with; by JointId.

  bool operator==(const WeightResult&) const = default;
};

/// @param friction  `jointFrictions`: by JointId, one each.
/// The same for any number of threads; after a cancel what is returned means nothing.
WeightResult checkWeight(const PrintSubject& subject, const std::vector<JointFriction>& friction,
                         WorkMonitor& monitor);

/// Findings: joints that droop by more than a maker sees, modes in which it falls over. Hints: what
/// may droop, or does between two modes; what stands but tips before 10 degrees (the usual test
/// slope of toys, from memory) or by less than the masses are known.
void addWeightFindings(const PrintSubject& subject, const WeightResult& result,
                       PrintFindings& findings);

/// "towards +x": a level way in W by the axis that it is nearest to.
std::string wayWord(const Vector3d& way_W);

}  // namespace swingroom
