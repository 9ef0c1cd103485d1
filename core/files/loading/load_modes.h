#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/assembly/assembly.h"
#include "core/files/document/assembly_document.h"
#include "core/files/document/document_problems.h"
#include "core/files/loading/name_index.h"

namespace swingroom {

/// What modes and sequences are read against.
struct MotionContext {
  const std::vector<Joint>& joints;
  /// Null: parts or joints have mistakes, so that only names and single values can be judged.
  const Assembly* assembly;
  const NameIndex& partNames;
  const NameIndex& jointNames;
  const NameIndex& modeNames;
  const std::vector<JointId>& followers;  ///< Each after the joint that it follows.
  DocumentProblems& problems;
};

/// A joint's value as the file names it.
struct NamedValue {
  JointId joint;
  JointValue value;
  std::string pointer;
};

/// The values at `pointer` that make sense; tells those that do not.
std::vector<NamedValue> readValues(const MotionContext& context, const DocumentValues& values,
                                   const std::string& pointer);

/// Puts `named` into `values` and lets each follower stand where its leader says.
/// Tells, at the value or else at `pointer`, a follower that is named elsewhere or cannot stand
/// there.
void setValues(const MotionContext& context, const std::vector<NamedValue>& named,
               const std::string& pointer, std::vector<JointValue>& values);

/// Which of the part's mounts has that joint.
std::optional<std::size_t> mountWith(const Assembly& assembly, PartId part, JointId joint);

/// Where a mode's placements want each part: X_WP = D * X_WP_home, by PartId. Empty: the mode has
/// values.
using WantedPlacements = std::vector<std::optional<Pose>>;

/// The modes of the file. One that cannot be made sense of, or for lack of an assembly, is nothing.
std::vector<std::optional<Mode>> loadModes(const MotionContext& context,
                                           const AssemblyDocument& document,
                                           const std::vector<WantedPlacements>& wanted);

}  // namespace swingroom
