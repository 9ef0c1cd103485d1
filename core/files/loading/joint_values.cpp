#include "core/files/loading/joint_values.h"

#include <algorithm>
#include <cmath>

#include "core/files/document/json_value.h"
#include "core/motion/sequence.h"

namespace swingroom {
namespace {

std::string shortNumber(double number) {
  return numberText(std::round(number * 1e4) / 1e4);
}

const char* unitText(JointType type) {
  return unitOf(type) == 1 ? " mm" : "°";
}

std::string rangeText(const Joint& joint, double min, double max) {
  const double unit = unitOf(joint.type);
  const auto end = [&](double value) { return shortNumber(value / unit) + unitText(joint.type); };
  if (std::isinf(min)) return "up to " + end(max);
  return end(min) + " to " + end(max);
}

std::string complaintAboutBall(const Joint& joint, const JointValue& value, double tolerance) {
  const SwingTwist turn = swingTwistOf(value, joint.along);
  const double slack = tolerance * unitOf(joint.type);
  if (turn.swingRad > joint.range.maxSwingRad + slack) {
    return "swings by " + differenceText(joint, degFromRad(turn.swingRad)) +
           ", outside the swing of " + inQuotes(joint.name) + ", " +
           rangeText(joint, -INFINITY, joint.range.maxSwingRad);
  }
  if (turn.twistRad < joint.range.min - slack || turn.twistRad > joint.range.max + slack) {
    return "twists by " + differenceText(joint, degFromRad(turn.twistRad)) +
           ", outside the twist of " + inQuotes(joint.name) + ", " +
           rangeText(joint, joint.range.min, joint.range.max);
  }
  return "";
}

}  // namespace

double unitOf(JointType type) {
  return type == JointType::hinge || type == JointType::ball ? radFromDeg(1) : 1;
}

std::string valueText(const Joint& joint, const JointValue& value) {
  const JointValue written = value / unitOf(joint.type);
  if (joint.type != JointType::ball) return shortNumber(written.x()) + unitText(joint.type);
  return "[" + shortNumber(written.x()) + ", " + shortNumber(written.y()) + ", " +
         shortNumber(written.z()) + "]°";
}

std::string differenceText(const Joint& joint, double difference) {
  // A difference too small for 4 decimals would read as none.
  const std::string number =
      std::abs(difference) < 1e-3 ? numberText(difference) : shortNumber(difference);
  return number + unitText(joint.type);
}

std::optional<JointValue> readValue(const Joint& joint, const DocumentValue& value,
                                    const std::string& pointer, DocumentProblems& problems) {
  const double* number = std::get_if<double>(&value);
  if (joint.type == JointType::ball) {
    if (const auto* turn = std::get_if<ThreeNumbers>(&value)) {
      return JointValue(unitOf(joint.type) * Vector3d((*turn)[0], (*turn)[1], (*turn)[2]));
    }
    problems.mistake(pointer, "must be a rotation vector [x, y, z] in degrees, for " +
                                  inQuotes(joint.name) + " is a ball joint");
    return std::nullopt;
  }
  if (!number) {
    problems.mistake(pointer, std::string("must be one number, for ") + inQuotes(joint.name) +
                                  " is no ball joint");
    return std::nullopt;
  }
  if (joint.type == JointType::fixed && *number != 0) {
    problems.mistake(pointer, "moves " + inQuotes(joint.name) + ", which is fixed",
                     "leave it out, or make the joint a hinge or slide");
    return std::nullopt;
  }
  return JointValue(*number * unitOf(joint.type), 0, 0);
}

std::string complaintAbout(const Joint& joint, const JointValue& value, double tolerance) {
  if (joint.type == JointType::fixed) return "";
  if (joint.type == JointType::ball) return complaintAboutBall(joint, value, tolerance);
  const double slack = tolerance * unitOf(joint.type);
  if (value.x() < joint.range.min - slack || value.x() > joint.range.max + slack) {
    return "is " + valueText(joint, value) + ", outside the range of " + inQuotes(joint.name) +
           ", " + rangeText(joint, joint.range.min, joint.range.max);
  }
  if (joint.clicks.empty()) return "";
  const auto nearer = [&](double a, double b) {
    return std::abs(a - value.x()) < std::abs(b - value.x());
  };
  const double click = *std::min_element(joint.clicks.begin(), joint.clicks.end(), nearer);
  if (std::abs(click - value.x()) <= slack) return "";
  return "is " + valueText(joint, value) + ", where " + inQuotes(joint.name) +
         " does not click: the nearest click is " + valueText(joint, {click, 0, 0});
}

double differenceOf(const Joint& joint, const JointValue& a, const JointValue& b) {
  if (joint.type == JointType::ball) return degFromRad(ballTurn(a, b).norm());
  return std::abs(a.x() - b.x()) / unitOf(joint.type);
}

SwingTwist swingTwistOf(const JointValue& rotationVector, const Vector3d& along) {
  const double angleRad = rotationVector.norm();
  if (angleRad == 0) return {};
  const Vector3d axis = rotationVector / angleRad;
  const Vector3d moved = Eigen::AngleAxisd(angleRad, axis) * along;
  SwingTwist turn;
  turn.swingRad = std::atan2(along.cross(moved).norm(), along.dot(moved));
  // The twist is the share of the quaternion's vector along the axis.
  const double twistRad =
      2 * std::atan2(std::sin(angleRad / 2) * axis.dot(along), std::cos(angleRad / 2));
  turn.twistRad = std::remainder(twistRad, 2 * kPi);
  return turn;
}

}  // namespace swingroom
