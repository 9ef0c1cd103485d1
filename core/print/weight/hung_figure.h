#pragma once

#include <optional>
#include <vector>

#include "core/assembly/assembly.h"
#include "core/print/weight/part_mass.h"

namespace swingroom {

/// m/s2, standard: weight in N of a mass in g is mass x this / 1000.
constexpr double kStandardGravity = 9.80665;

/// Masses that hang together.
struct HungMass {
  double lowerG = 0, massG = 0, upperG = 0;
  Vector3d centre_W = Vector3d::Zero();
  double centreOffMm = 0;   ///< The true centre is at most so far from it.
  std::size_t unknown = 0;  ///< Parts whose mass is not known, left out.

  bool operator==(const HungMass&) const = default;
};

/// One joint that holds a part on another, and what hangs on it, as everything stands.
struct HungJoint {
  JointId joint;
  PartId parent, child;
  Vector3d point_W = Vector3d::Zero();  ///< Of the axis, or the ball's centre.
  Vector3d axis_W = Vector3d::UnitZ();  ///< Unit; of a ball its `along`, as the child has it.
  Pose D_before = Pose::Identity();     ///< How far what it stands on is from home.
  HungMass hung;
  /// What gravity does to it: a hinge's torque on the child about the axis (x), of a slide the
  /// force along it, N (x), of a ball the torque about the centre in W; N mm. Positive: to larger
  /// values.
  Vector3d load = Vector3d::Zero();
  double loadOff = 0;  ///< The true load is at most so far from it, from the masses' brackets.
};

/// An assembly that stands in one configuration, with masses. A value; const.
class HungFigure {
 public:
  /// @param masses  By PartId.
  /// @param up_W    Unit.
  /// @throws std::invalid_argument if the mounts that hold form a ring.
  HungFigure(const Assembly& assembly, const Configuration& standing,
             const std::vector<PartMass>& masses, const Vector3d& up_W);

  /// Joints with a parent, of mounts that hold; fixed ones too. In order of their ids.
  const std::vector<HungJoint>& joints() const { return joints_; }
  const std::vector<Pose>& displacements() const { return displacements_; }
  /// `part` is `root`, or hangs on it.
  bool hangsOn(PartId part, PartId root) const;
  /// The part that `part` hangs on; none: it stands on the ground.
  std::optional<PartId> parentOf(PartId part) const { return parents_.at(part.index); }
  /// Without what stands apart.
  const HungMass& whole() const { return whole_; }
  /// It has no joint at all, while others are placed by joints to the ground: it stands still as
  /// the ground does, and is neither weighed with the figure nor something that it stands on.
  bool standsApart(PartId part) const { return apart_.at(part.index); }
  /// Where the part's centre of mass is.
  const Vector3d& centreOf(PartId part) const { return centres_.at(part.index); }

 private:
  void addMount(const Assembly& assembly, const Configuration& standing, PartId child);
  void weigh(const std::vector<PartMass>& masses, const Vector3d& up_W, const Assembly& assembly);

  std::vector<Pose> displacements_;
  std::vector<std::optional<PartId>> parents_;
  std::vector<Vector3d> centres_;
  std::vector<bool> apart_;
  std::vector<HungJoint> joints_;
  HungMass whole_;
};

/// @param parts  Which; by PartId.
HungMass massOf(const std::vector<PartMass>& masses, const std::vector<Vector3d>& centres_W,
                const std::vector<bool>& parts);

}  // namespace swingroom
