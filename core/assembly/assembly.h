#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/assembly/joint.h"
#include "core/assembly/pair_rule.h"
#include "core/assembly/part.h"
#include "core/base/outcome.h"

namespace swingroom {

/// One way a part can hang: all joints from one child to one parent, in file order. The first is fixed on
/// the parent, each next one is carried by those before it.
struct Mount {
  std::optional<PartId> parent;  ///< None: the ground.
  std::vector<JointId> joints;
};

/// Where everything stands: one value a joint and, for each part, which of its mounts holds (an index into
/// `mountsOf(part)`; unused for a part without joints).
struct Configuration {
  std::vector<JointValue> values;   ///< By JointId.
  std::vector<std::size_t> mounts;  ///< By PartId.

  bool operator==(const Configuration&) const = default;
};

/// A named shape of the whole assembly.
struct Mode {
  std::string name;
  Configuration configuration;
};

/// What an assembly is made from; see the members of `Assembly` for their meaning.
struct AssemblyParts {
  std::string name;
  double requiredGapMm = 0.3;
  double resolutionMm = 0.01;
  std::vector<Part> parts;
  std::vector<Joint> joints;
  std::vector<PairRule> pairRules;
};

/// Parts, the joints between them and the rules for their pairs. Fixed once built; const from any thread.
class Assembly {
 public:
  /// @throws std::invalid_argument if a joint or rule names a part that is not there, a joint hangs a part
  /// on itself, an axis is not a unit vector, or a number is not finite or out of its domain. Data from
  /// outside is examined (`core/files`) before it comes here.
  explicit Assembly(AssemblyParts parts);

  const std::string& name() const { return parts_.name; }
  const std::vector<Part>& parts() const { return parts_.parts; }
  const std::vector<Joint>& joints() const { return parts_.joints; }
  const std::vector<PairRule>& pairRules() const { return parts_.pairRules; }
  const Part& part(PartId id) const { return parts_.parts.at(id.index); }
  const Joint& joint(JointId id) const { return parts_.joints.at(id.index); }
  double resolutionMm() const { return parts_.resolutionMm; }

  std::optional<PartId> findPart(std::string_view name) const;
  std::optional<JointId> findJoint(std::string_view name) const;

  /// Ways in which the part can hang; empty: it stands still.
  const std::vector<Mount>& mountsOf(PartId id) const { return mounts_.at(id.index); }

  /// The rule for a pair, asked either way round; null: none.
  const PairRule* ruleFor(PartId a, PartId b) const;
  /// The least gap that the maker accepts for the pair.
  double requiredGapMm(PartId a, PartId b) const;

  /// Every joint at 0, every part on its first mount.
  Configuration home() const;

 private:
  AssemblyParts parts_;
  std::vector<std::vector<Mount>> mounts_;
};

/// The mount that holds `part` in `configuration`; null: the part has no joint.
const Mount* holdingMount(const Assembly& assembly, const Configuration& configuration, PartId part);

/// A part that hangs, through mounts that hold, on itself; none: a tree. Every function that walks to the
/// ground needs a tree.
std::optional<PartId> findRing(const Assembly& assembly, const Configuration& configuration);

/// How far each part is from where it stands at home: X_WP = D * X_WP_home. By PartId.
/// @throws std::invalid_argument if the mounts that hold form a ring.
std::vector<Pose> displacementsOf(const Assembly& assembly, const Configuration& configuration);

/// World pose of each part, by PartId.
std::vector<Pose> posesOf(const Assembly& assembly, const Configuration& configuration);

}  // namespace swingroom
