#include "core/motion/joint_fit.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <stdexcept>

#include "core/motion/screw.h"

namespace swingroom {
namespace {

using Points = std::vector<Vector3d>;

constexpr double kLeastTurnRad = 1e-5;
constexpr double kLeastTravelMm = 1e-3;

/// Corners of a box round the points, wide enough in every direction to feel each turn.
Points cornersRound(const Points& points, const Vector3d& otherwise) {
  Eigen::AlignedBox3d box;
  for (const Vector3d& p : points) box.extend(p);
  if (box.isEmpty()) box.extend(otherwise);
  const Vector3d centre = box.center();
  const Vector3d half = (0.5 * box.sizes()).cwiseMax(1.0);
  Points corners;
  for (int i = 0; i < 8; ++i) {
    const Vector3d sign((i & 1) ? 1 : -1, (i & 2) ? 1 : -1, (i & 4) ? 1 : -1);
    corners.push_back(centre + half.cwiseProduct(sign));
  }
  return corners;
}

double sumOfSquares(const Pose& D, const Pose& D_wanted, const Points& corners) {
  double sum = 0;
  for (const Vector3d& x : corners) sum += (D * x - D_wanted * x).squaredNorm();
  return sum;
}

/// Angle that turns the corners nearest to where they should be: the derivative of the sum of
/// squares vanishes there.
double bestAngle(const Joint& hinge, const Pose& D, const Points& corners) {
  double sine = 0;
  double cosine = 0;
  for (const Vector3d& x : corners) {
    const Vector3d from = x - hinge.through;
    const Vector3d to = D * x - hinge.through;
    sine += hinge.along.dot(from.cross(to));
    cosine += from.dot(to) - hinge.along.dot(from) * hinge.along.dot(to);
  }
  return sine == 0 && cosine == 0 ? 0 : std::atan2(sine, cosine);
}

double bestTravel(const Joint& slide, const Pose& D, const Points& corners) {
  double sum = 0;
  for (const Vector3d& x : corners) sum += slide.along.dot(D * x - x);
  return sum / static_cast<double>(corners.size());
}

JointValue bestValue(const Joint& joint, const Pose& D, const Points& corners) {
  switch (joint.type) {
    case JointType::hinge:
      return {bestAngle(joint, D, corners), 0, 0};
    case JointType::slide:
      return {bestTravel(joint, D, corners), 0, 0};
    case JointType::ball:
      return rotationVectorOf(D.linear());
    case JointType::fixed:
      break;
  }
  return JointValue::Zero();
}

/// Directions in which a joint can move the corners: rotation about `through` by each of `turns`.
struct Freedom {
  Vector3d through = Vector3d::Zero();
  std::vector<Vector3d> turns;
  std::optional<Vector3d> travel;
};

Freedom freedomOf(const Joint& joint, const Pose& before) {
  Freedom freedom;
  freedom.through = before * joint.through;
  if (joint.type == JointType::hinge) freedom.turns = {before.linear() * joint.along};
  if (joint.type == JointType::slide) freedom.travel = before.linear() * joint.along;
  if (joint.type == JointType::ball) {
    for (int k = 0; k < 3; ++k) freedom.turns.push_back(before.linear().col(k));
  }
  return freedom;
}

/// Gradient and curvature (Gauss-Newton) of half the sum of squares at `values`.
struct Slope {
  Eigen::MatrixXd curvature;
  Eigen::VectorXd downhill;
};

Slope slopeAt(const std::vector<Joint>& chain, const std::vector<JointValue>& values,
              const Pose& D_wanted, const Points& corners) {
  std::vector<Freedom> freedoms;
  Eigen::Index count = 0;
  Pose D = Pose::Identity();
  for (std::size_t i = 0; i < chain.size(); ++i) {
    freedoms.push_back(freedomOf(chain[i], D));
    count +=
        static_cast<Eigen::Index>(freedoms.back().turns.size()) + (freedoms.back().travel ? 1 : 0);
    D = D * displacementOf(chain[i], values[i]);
  }
  Slope slope{Eigen::MatrixXd::Zero(count, count), Eigen::VectorXd::Zero(count)};
  Eigen::Matrix3Xd jacobian(3, count);
  for (const Vector3d& x : corners) {
    const Vector3d p = D * x;
    Eigen::Index column = 0;
    for (const Freedom& freedom : freedoms) {
      for (const Vector3d& axis : freedom.turns)
        jacobian.col(column++) = axis.cross(p - freedom.through);
      if (freedom.travel) jacobian.col(column++) = *freedom.travel;
    }
    slope.curvature += jacobian.transpose() * jacobian;
    slope.downhill += jacobian.transpose() * (D_wanted * x - p);
  }
  return slope;
}

std::vector<JointValue> changed(const std::vector<Joint>& chain, std::vector<JointValue> values,
                                const Eigen::VectorXd& change) {
  Eigen::Index column = 0;
  for (std::size_t i = 0; i < chain.size(); ++i) {
    if (chain[i].type == JointType::fixed) continue;
    if (chain[i].type != JointType::ball) {
      values[i].x() += change[column++];
      continue;
    }
    Joint turn = chain[i];
    turn.through.setZero();
    const Vector3d increment = change.segment<3>(column);
    values[i] = rotationVectorOf(displacementOf(turn, increment).linear() *
                                 displacementOf(turn, values[i]).linear());
    column += 3;
  }
  return values;
}

/// Levenberg-Marquardt from one start.
std::vector<JointValue> descend(const std::vector<Joint>& chain, std::vector<JointValue> values,
                                const Pose& D_wanted, const Points& corners) {
  constexpr int kMostSteps = 100;
  double cost = sumOfSquares(displacementOf(chain, values), D_wanted, corners);
  double damping = 1e-3;
  for (int step = 0; step < kMostSteps && cost > 1e-22 && damping < 1e12; ++step) {
    const Slope slope = slopeAt(chain, values, D_wanted, corners);
    Eigen::MatrixXd damped = slope.curvature;
    damped.diagonal() += (damping + 1e-12) * slope.curvature.diagonal();
    damped.diagonal().array() += 1e-12;  // a joint that moves nothing
    const Eigen::VectorXd change = damped.ldlt().solve(slope.downhill);
    if (change.norm() < 1e-14) break;
    const std::vector<JointValue> next = changed(chain, values, change);
    const double nextCost = sumOfSquares(displacementOf(chain, next), D_wanted, corners);
    if (nextCost < cost) {
      values = next;
      cost = nextCost;
      damping *= 0.1;
    } else {
      damping *= 10;
    }
  }
  return values;
}

/// Zero first, then each hinge a third of a turn either way, and the balls turned as wanted.
std::vector<std::vector<JointValue>> startsFor(const std::vector<Joint>& chain,
                                               const Pose& D_wanted) {
  constexpr std::size_t kMostStarts = 81;
  std::vector<std::vector<JointValue>> starts{
      std::vector<JointValue>(chain.size(), JointValue::Zero())};
  for (std::size_t i = 0; i < chain.size(); ++i) {
    std::vector<JointValue> others;
    if (chain[i].type == JointType::hinge) others = {{2 * kPi / 3, 0, 0}, {-2 * kPi / 3, 0, 0}};
    if (chain[i].type == JointType::ball) others = {rotationVectorOf(D_wanted.linear())};
    const std::size_t before = starts.size();
    for (const JointValue& other : others) {
      for (std::size_t s = 0; s < before && starts.size() < kMostStarts; ++s) {
        starts.push_back(starts[s]);
        starts.back()[i] = other;
      }
    }
  }
  return starts;
}

bool isInRange(const Joint& joint, double value) {
  constexpr double kRounding = 1e-6;
  return value >= joint.range.min - kRounding && value <= joint.range.max + kRounding;
}

/// The same turn within the range if a whole turn more or less is; else in (-pi, pi].
double wrapped(const Joint& hinge, double angleRad) {
  angleRad = std::remainder(angleRad, 2 * kPi);
  if (angleRad < -kPi + 1e-9) angleRad += 2 * kPi;
  for (const double turn : {0.0, 2 * kPi, -2 * kPi}) {
    if (isInRange(hinge, angleRad + turn)) return angleRad + turn;
  }
  return angleRad;
}

std::vector<JointValue> wrappedValues(const std::vector<Joint>& chain,
                                      std::vector<JointValue> values) {
  for (std::size_t i = 0; i < chain.size(); ++i) {
    if (chain[i].type == JointType::hinge) values[i].x() = wrapped(chain[i], values[i].x());
  }
  return values;
}

bool allInRange(const std::vector<Joint>& chain, const std::vector<JointValue>& values) {
  for (std::size_t i = 0; i < chain.size(); ++i) {
    if (chain[i].type != JointType::ball && !isInRange(chain[i], values[i].x())) return false;
  }
  return true;
}

/// The best of several descents. Of several that fit, one within the joints' ranges.
std::vector<JointValue> bestValues(const std::vector<Joint>& chain, const Pose& D_wanted,
                                   const Points& corners) {
  constexpr double kFits = 1e-14;  // mm2: 1e-7 mm
  std::vector<JointValue> best(chain.size(), JointValue::Zero());
  double least = std::numeric_limits<double>::infinity();
  for (const auto& start : startsFor(chain, D_wanted)) {
    auto values = wrappedValues(chain, descend(chain, start, D_wanted, corners));
    const double cost = sumOfSquares(displacementOf(chain, values), D_wanted, corners);
    const bool fits = cost < kFits;
    if (fits && allInRange(chain, values)) return values;
    if (cost < least && !(least < kFits)) {
      least = cost;
      best = std::move(values);
    }
  }
  return best;
}

}  // namespace

Misfit misfitOf(const Pose& D, const Pose& D_wanted, const std::vector<Vector3d>& points) {
  Misfit misfit;
  for (const Vector3d& x : points) misfit.mm = std::max(misfit.mm, (D * x - D_wanted * x).norm());
  misfit.rad = rotationVectorOf(D.linear() * D_wanted.linear().transpose()).norm();
  return misfit;
}

Pose displacementOf(const std::vector<Joint>& chain, const std::vector<JointValue>& values) {
  Pose D = Pose::Identity();
  for (std::size_t i = 0; i < chain.size(); ++i) D = D * displacementOf(chain[i], values.at(i));
  return D;
}

JointFit fitJoints(const std::vector<Joint>& chain, const Pose& D_PC,
                   const std::vector<Vector3d>& points_W) {
  if (chain.empty()) throw std::invalid_argument("fitJoints: a chain without joints");
  const Points corners = cornersRound(points_W, chain.front().through);
  JointFit fit;
  fit.values = chain.size() == 1 ? wrappedValues(chain, {bestValue(chain.front(), D_PC, corners)})
                                 : bestValues(chain, D_PC, corners);
  fit.misfit =
      misfitOf(displacementOf(chain, fit.values), D_PC, points_W.empty() ? corners : points_W);
  return fit;
}

std::vector<Joint> jointsFromScrew(const std::string& name, PartId child, const Pose& D) {
  const Screw screw = screwOf(D);
  const bool turns = screw.angleRad >= kLeastTurnRad;
  Joint joint;
  joint.child = child;
  joint.through = screw.point;
  joint.along = screw.axis;
  std::vector<Joint> joints;
  if (turns) {
    joint.name = name + " turn";
    joint.type = JointType::hinge;
    joints.push_back(joint);
  }
  const double travelMm = turns ? std::abs(screw.slideMm) : D.translation().norm();
  if (travelMm >= kLeastTravelMm) {
    joint.name = name + " travel";
    joint.type = JointType::slide;
    // Too small a turn has no axis to speak of.
    if (!turns) joint.along = D.translation().normalized();
    joints.push_back(joint);
  }
  return joints;
}

}  // namespace swingroom
