#include "core/print/weight/hold_program.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace swingroom {
namespace {

/// Excess of a slide, N, weighs as much as on a lever of this length, mm.
constexpr double kSlideLeverMm = 10;
/// Of equal ways to balance: even excess first, then even shares of what holds, then the one that
/// takes least from fits.
constexpr double kEvenExcess = 1e-3, kEvenShare = 1e-4, kLittleFriction = 1e-5;
constexpr double kAtEnd = 1e-6;  // rad or mm: values are read from degrees.

bool holdProgramClicks(const Joint& joint, double value) {
  return std::any_of(joint.clicks.begin(), joint.clicks.end(),
                     [&](double click) { return std::abs(click - value) <= kAtEnd; });
}

bool listed(const std::vector<JointId>& joints, JointId id) {
  return std::find(joints.begin(), joints.end(), id) != joints.end();
}

/// Three unit directions, the first along `first`.
std::array<Vector3d, 3> axesAlong(const Vector3d& first) {
  const double size = first.norm();
  const Vector3d a = size > 0 ? Vector3d(first / size) : Vector3d::UnitZ();
  Eigen::Index least = 0;
  a.cwiseAbs().minCoeff(&least);
  const Vector3d b = (Vector3d::Unit(least) - a * a(least)).normalized();
  return {a, b, a.cross(b)};
}

}  // namespace

HoldProgram::HoldProgram(const HoldQuestion& question, const std::vector<double>& holds,
                         bool inside, double floorFriction)
    : question_(question) {
  worst_ = program_.addVariable(kEvenExcess);
  share_ = program_.addVariable(kEvenShare);
  addFreedoms();
  addFloor(floorFriction);
  addGrips();
  addFollowers();
  joints_.resize(question.figure->joints().size());
  for (std::size_t i = 0; i < joints_.size(); ++i) addJoint(i, holds[i], inside);
  addBalance();
}

void HoldProgram::addFreedoms() {
  const auto& joints = question_.figure->joints();
  for (std::size_t i = 0; i < joints.size(); ++i) {
    const Joint& joint = question_.assembly->joint(joints[i].joint);
    if (joint.type == JointType::fixed) continue;
    if (joint.type == JointType::ball) {
      const auto axes = axesAlong(joints[i].load);
      for (const Vector3d& axis : axes) {
        freedoms_.push_back({i, axis, false, axis.dot(joints[i].load)});
      }
      continue;
    }
    freedoms_.push_back({i, joints[i].axis_W, joint.type == JointType::slide, joints[i].load.x()});
  }
  rows_.resize(freedoms_.size());
}

bool HoldProgram::moves(const JointFreedom& freedom, PartId part) const {
  return question_.figure->hangsOn(part, question_.figure->joints()[freedom.joint].child);
}

/// Of what the freedom moves, a step of 1 rad or mm.
Vector3d HoldProgram::speedOf(const JointFreedom& freedom, const Vector3d& p_W) const {
  if (freedom.slides) return freedom.axis_W;
  return freedom.axis_W.cross(p_W - question_.figure->joints()[freedom.joint].point_W);
}

void HoldProgram::addFloor(double friction) {
  const auto sideways = axesAlong(question_.up_W);
  for (const FloorPoint& point : question_.floor) {
    std::vector<Vector3d> forces = {question_.up_W};
    if (friction >
        0) {  // Corners of a square round the cone: no less than what the floor can give.
      for (const double x : {friction, -friction}) {
        for (const double y : {friction, -friction}) {
          forces.push_back(question_.up_W + x * sideways[1] + y * sideways[2]);
        }
      }
    }
    for (const Vector3d& force : forces) {
      const std::size_t variable = program_.addVariable();
      floor_.push_back({point, force, variable});
      for (std::size_t k = 0; k < freedoms_.size(); ++k) {
        if (!moves(freedoms_[k], point.part)) continue;
        const double power = force.dot(speedOf(freedoms_[k], point.point_W));
        if (power != 0) rows_[k].push_back({variable, power});
      }
    }
  }
}

/// A grip passes on any force and torque: its strength is not computed.
void HoldProgram::addGrips() {
  const Vector3d about = question_.figure->whole().centre_W;
  for (const auto& [a, b] : question_.grips) {
    for (int i = 0; i < 6; ++i) {
      const std::size_t plus = program_.addVariable(), minus = program_.addVariable();
      for (std::size_t k = 0; k < freedoms_.size(); ++k) {
        const double sign =
            (moves(freedoms_[k], a) ? 1.0 : 0.0) - (moves(freedoms_[k], b) ? 1.0 : 0.0);
        if (sign == 0) continue;
        const Vector3d spin =
            freedoms_[k].slides ? Vector3d(Vector3d::Zero()) : freedoms_[k].axis_W;
        const double power = sign * (i < 3 ? speedOf(freedoms_[k], about)(i) : spin(i - 3));
        rows_[k].push_back({plus, power});
        rows_[k].push_back({minus, -power});
      }
    }
  }
}

/// What drives a follower by its leader passes on any torque.
void HoldProgram::addFollowers() {
  const auto& joints = question_.figure->joints();
  for (std::size_t k = 0; k < freedoms_.size(); ++k) {
    const Joint& joint = question_.assembly->joint(joints[freedoms_[k].joint].joint);
    if (!joint.follows) continue;
    const auto leader =
        std::find_if(freedoms_.begin(), freedoms_.end(), [&](const JointFreedom& freedom) {
          return joints[freedom.joint].joint == joint.follows->leader;
        });
    if (leader == freedoms_.end()) continue;
    const std::size_t plus = program_.addVariable(), minus = program_.addVariable();
    rows_[k].push_back({plus, 1});
    rows_[k].push_back({minus, -1});
    auto& led = rows_[static_cast<std::size_t>(leader - freedoms_.begin())];
    led.push_back({plus, -joint.follows->ratio});
    led.push_back({minus, joint.follows->ratio});
  }
}

void HoldProgram::addJoint(std::size_t index, double holds, bool inside) {
  JointVariables& own = joints_[index];
  std::vector<std::size_t> mine;
  for (std::size_t k = 0; k < freedoms_.size(); ++k) {
    if (freedoms_[k].joint == index) mine.push_back(k);
  }
  if (mine.empty()) return;
  addHeld(index);
  for (const std::size_t k : mine) {
    for (const double sign : {1.0, -1.0}) {
      own.friction.push_back(program_.addVariable(kLittleFriction));
      rows_[k].push_back({own.friction.back(), sign});
    }
  }
  if (std::isinf(holds)) return;
  own.excess = program_.addVariable(freedoms_[mine.front()].slides ? kSlideLeverMm : 1);
  program_.addLimit({{*own.excess, 1}, {worst_, -1}}, 0);
  // A ball's limit is a ball; inside it: |x| + |y| + |z|, outside: each.
  const std::size_t each = inside ? own.friction.size() : 2;
  for (std::size_t from = 0; from < own.friction.size(); from += each) {
    Terms sum;
    for (std::size_t i = from; i < from + each; ++i) sum.push_back({own.friction[i], 1});
    Terms limit = sum;
    limit.push_back({*own.excess, -1});
    program_.addLimit(limit, holds);
    if (holds <= 0) continue;
    sum.push_back({*own.excess, -1});
    sum.push_back({share_, -holds});
    program_.addLimit(sum, 0);
  }
}

/// Clicks hold both ways, ends of ranges and rests one way.
void HoldProgram::addHeld(std::size_t index) {
  const HungJoint& hung = question_.figure->joints()[index];
  const Joint& joint = question_.assembly->joint(hung.joint);
  const JointValue& value = question_.standing->values.at(hung.joint.index);
  JointVariables& own = joints_[index];
  const auto pushAlong = [&](std::vector<std::size_t>& into, const Vector3d& way_W, double sign) {
    into.push_back(program_.addVariable());
    for (std::size_t k = 0; k < freedoms_.size(); ++k) {
      if (freedoms_[k].joint != index) continue;
      const double power = sign * way_W.dot(freedoms_[k].axis_W);
      if (std::abs(power) > 1e-12) rows_[k].push_back({into.back(), power});
    }
  };
  if (joint.type != JointType::ball) {
    const double at = value.x();
    if (holdProgramClicks(joint, at)) {
      pushAlong(own.click, hung.axis_W, 1);
      pushAlong(own.click, hung.axis_W, -1);
    }
    if (at >= joint.range.max - kAtEnd || listed(question_.restsAbove, hung.joint))
      pushAlong(own.stop, hung.axis_W, -1);
    if (at <= joint.range.min + kAtEnd || listed(question_.restsBelow, hung.joint))
      pushAlong(own.stop, hung.axis_W, 1);
    return;
  }
  const Vector3d along = hung.D_before.linear() * joint.along;
  const Vector3d swing = along.cross(hung.axis_W);
  const double swingRad = std::atan2(swing.norm(), along.dot(hung.axis_W));
  if (swingRad >= joint.range.maxSwingRad - kAtEnd && swing.norm() > 1e-9)
    pushAlong(own.stop, swing.normalized(), -1);
}

void HoldProgram::addBalance() {
  for (std::size_t k = 0; k < freedoms_.size(); ++k) {
    program_.addEquality(rows_[k], -freedoms_[k].load);
  }
  if (question_.floor.empty()) return;
  const HungMass& whole = question_.figure->whole();
  const auto axes = axesAlong(question_.up_W);
  for (const Vector3d& axis : axes) {
    Terms force, torque;
    for (const Floor& floor : floor_) {
      force.push_back({floor.variable, axis.dot(floor.force_W)});
      const Vector3d lever = floor.point.point_W - whole.centre_W;
      torque.push_back({floor.variable, axis.dot(lever.cross(floor.force_W))});
    }
    program_.addEquality(force, axis.dot(question_.up_W) * whole.massG * kStandardGravity / 1000);
    program_.addEquality(torque, 0);
  }
}

std::optional<std::vector<JointShare>> HoldProgram::solve() const {
  const auto values = program_.solve();
  if (!values) return std::nullopt;
  std::vector<JointShare> shares;
  for (const JointVariables& own : joints_) {
    JointShare share;
    double squares = 0;
    for (std::size_t i = 0; i + 1 < own.friction.size(); i += 2) {
      const double net = (*values)[own.friction[i]] - (*values)[own.friction[i + 1]];
      squares += net * net;
    }
    share.friction = std::sqrt(squares);
    if (own.excess) share.excess = (*values)[*own.excess];
    for (const std::size_t click : own.click) share.click += (*values)[click];
    for (const std::size_t stop : own.stop) share.stop += (*values)[stop];
    shares.push_back(share);
  }
  return shares;
}

}  // namespace swingroom
