#pragma once

#include <optional>
#include <vector>

#include "core/print/weight/hold.h"
#include "core/print/weight/linear_program.h"

namespace swingroom {

/// One way in which a joint can move: a hinge's and slide's own, one of three of a ball.
struct JointFreedom {
  std::size_t joint = 0;  ///< Index into the figure's joints.
  Vector3d axis_W = Vector3d::UnitZ();
  bool slides = false;
  double load = 0;  ///< What gravity does to it, N mm or N.
};

/// What one way of balancing asks of a joint.
struct JointShare {
  double friction = 0;  ///< What the fit gives.
  double excess = 0;    ///< What is needed beyond what it holds.
  double click = 0, stop = 0;
};

/// The balance of a figure as a linear program.
class HoldProgram {
 public:
  /// @param holds  What each joint's friction gives, by the figure's joints; infinite: any.
  /// @param ball   Whether a ball's friction is taken from inside its true limit (else outside).
  /// @param floorFriction  Most sideways force of the floor, as a share of its push.
  HoldProgram(const HoldQuestion& question, const std::vector<double>& holds, bool inside,
              double floorFriction);

  /// By the figure's joints; none: nothing balances (it does not stand).
  std::optional<std::vector<JointShare>> solve() const;

 private:
  using Terms = std::vector<LinearProgram::Term>;
  struct Floor {
    FloorPoint point;
    Vector3d force_W;  ///< For 1 N of its variable.
    std::size_t variable;
  };

  void addFreedoms();
  void addFloor(double friction);
  void addGrips();
  void addFollowers();
  void addJoint(std::size_t joint, double holds, bool inside);
  void addHeld(std::size_t joint);
  void addBalance();
  Vector3d speedOf(const JointFreedom& freedom, const Vector3d& p_W) const;
  bool moves(const JointFreedom& freedom, PartId part) const;

  const HoldQuestion& question_;
  LinearProgram program_;
  std::vector<JointFreedom> freedoms_;
  std::vector<Terms> rows_;  ///< By freedom: what joint, floor and grips do to it.
  std::vector<Floor> floor_;
  std::size_t worst_ = 0,
              share_ = 0;  ///< Variables: greatest excess, greatest share of what holds.
  struct JointVariables {
    std::vector<std::size_t> friction, click, stop;
    std::optional<std::size_t> excess;
  };
  std::vector<JointVariables> joints_;
};

}  // namespace swingroom
