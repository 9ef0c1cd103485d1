#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/assembly/joint.h"
#include "core/base/work_monitor.h"
#include "core/rigging/rig_part.h"

namespace swingroom {

/// One way in which a part can hang, and why. Ids are indices of the parts given; axes in W with
/// every joint at 0. A hinge or ball brings the zones that hold its pin and hole, and the `fitMm`
/// that was measured. No range: meshes do not tell how far a joint should go.
struct JointChoice {
  Joint joint;
  std::string reason;   ///< "pin 4.00 mm in hole 4.40 mm, on one axis within 0.003 mm; ..."
  double strength = 0;  ///< 0 to 1: how sure. Above 0.5 there is a feature that it hangs by.
};

/// How one part hangs.
struct SuggestedJoint {
  JointChoice best;
  std::vector<JointChoice> others;  ///< Other types and other parents, best first.
};

/// Where a pin fits that does not stand there.
struct PinPlace {
  std::string name;  ///< For the part that would stand there, from the parts that it joins.
  Pose X_WP = Pose::Identity();
  std::vector<PartId> through;  ///< The parts whose holes it goes through.
  std::string reason;
};

/// A pin part and the empty holes that it fits. If it stands in no hole itself, the first place is
/// for the part as it is; all others are for more of the same file.
struct SuggestedPin {
  PartId pin;
  bool isFree = false;  ///< It stands in no hole.
  std::vector<PinPlace> places;
  std::string reason;  ///< "pin 4.00 mm thick, 9.4 long: 8 places"
};

/// Zones for a hinge or ball that is there and has none, along its own axis.
struct SuggestedZones {
  JointId joint;  ///< Of the question's.
  std::vector<JointZone> zones;
  std::optional<double> fitMm;  ///< As measured; none: the joint has one, or there is no clearance.
  std::string reason;
};

struct RigSuggestion {
  std::optional<PartId> ground;        ///< What everything else is thought to hang on.
  std::vector<SuggestedJoint> joints;  ///< Parents before their children.
  std::vector<SuggestedPin> pins;      ///< Place these first: joints hang on pins.
  std::vector<SuggestedZones> zones;
};

struct RigQuestion {
  std::vector<RigPart> parts;
  std::vector<Joint> joints;     ///< That there are already; their children need none.
  std::optional<PartId> ground;  ///< None: the part that most hangs on, by size.
  /// What parts keep that pass each other, mm: a pin with less on the diameter is pressed in.
  double requiredGapMm = 0.3;
  unsigned threads = 1;
  const WorkMonitor* monitor = nullptr;  ///< Once it is cancelled, what is returned means nothing.
};

/// What the parts as they stand say about pins and joints: see DEVELOPERS.md, "Suggestions".
/// Deterministic, whatever `threads`.
RigSuggestion suggestRig(const RigQuestion& question);

}  // namespace swingroom
