#include "core/motion/joint_drive.h"

#include <cmath>

#include "core/motion/screw.h"

namespace swingroom {
namespace {

/// Longest piece of a ball's way: about one axis less than half a turn, so that its short way is
/// meant.
constexpr double kExactPieceRad = kPi / 2;
constexpr double kChordRad = radFromDeg(1);

Eigen::Matrix3d turnOf(const JointValue& rotationVector) {
  const double angleRad = rotationVector.norm();
  if (angleRad == 0) return Eigen::Matrix3d::Identity();
  return Eigen::AngleAxisd(angleRad, rotationVector / angleRad).toRotationMatrix();
}

/// The way of a component turns about that component's axis alone.
bool isOnItsAxis(const JointDrive& drive, const JointValue& value) {
  JointValue others = value;
  others[drive.component] = 0;
  return others.isZero(0);
}

}  // namespace

double driven(const JointDrive& drive, const Configuration& standing) {
  return drive.about ? 0 : standing.values.at(drive.joint.index)[drive.component];
}

JointValue drivenTo(const JointDrive& drive, const JointValue& value, double to) {
  if (drive.about) {
    return rotationVectorOf(Eigen::AngleAxisd(to, *drive.about).toRotationMatrix() * turnOf(value));
  }
  JointValue moved = value;
  moved[drive.component] = to;
  return moved;
}

void letFollow(const Assembly& assembly, Configuration& standing) {
  for (std::size_t round = 0; round < assembly.joints().size(); ++round) {
    bool still = true;
    for (std::size_t j = 0; j < assembly.joints().size(); ++j) {
      const auto& follows = assembly.joints()[j].follows;
      if (!follows) continue;
      const double value =
          follows->ratio * standing.values[follows->leader.index].x() + follows->offset;
      still = still && standing.values[j].x() == value;
      standing.values[j].x() = value;
    }
    if (still) return;
  }
}

Configuration drivenTo(const Assembly& assembly, const Configuration& standing,
                       const JointDrive& drive, double to) {
  Configuration moved = standing;
  JointValue& value = moved.values.at(drive.joint.index);
  value = drivenTo(drive, value, to);
  letFollow(assembly, moved);
  return moved;
}

DrivenWay drivenWay(const Assembly& assembly, const Configuration& standing,
                    const JointDrive& drive, double from, double to) {
  DrivenWay way;
  double pieces = 1;
  const double length = std::abs(to - from);
  if (assembly.joint(drive.joint).type == JointType::ball) {
    const bool exact = drive.about || isOnItsAxis(drive, standing.values[drive.joint.index]);
    pieces = std::max(1.0, std::ceil(length / (exact ? kExactPieceRad : kChordRad) - 1e-9));
    // The turn rate of exp(r + t e) changes by at most 1/2 a unit of t squared, so that a chord
    // over h is off by at most h^2 / 16, and for what the rates do not commute by as much again.
    const double chord = length / pieces;
    if (!exact) way.offRad = chord * chord / 8;
  }
  const auto count = static_cast<std::size_t>(pieces);
  for (std::size_t i = 0; i <= count; ++i) {
    const double share = static_cast<double>(i) / pieces;
    way.numbers.push_back(i == count ? to : from + share * (to - from));
    way.stands.push_back(drivenTo(assembly, standing, drive, way.numbers.back()));
  }
  return way;
}

}  // namespace swingroom
