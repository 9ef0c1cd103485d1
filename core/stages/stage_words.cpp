#include "core/stages/stage_words.h"

#include <array>
#include <cmath>
#include <cstdio>

namespace swingroom::words {
namespace {

using Eigen::Vector3d;

constexpr std::array<const char*, 3> kAxes{"x", "y", "z"};

std::string decimals(double value, int places) {
  char text[64];
  std::snprintf(text, sizeof text, "%.*f", places, value);
  std::string shown = text;
  if (shown.find_first_not_of("-0.") == std::string::npos && shown[0] == '-') shown.erase(0, 1);
  return shown;
}

/// "z" of the column that points along the third axis, "-z" against it.
std::string axisOf(const Vector3d& direction) {
  Eigen::Index axis;
  direction.cwiseAbs().maxCoeff(&axis);
  return (direction[axis] < 0 ? "-" : "") + std::string(kAxes[static_cast<std::size_t>(axis)]);
}

std::string kindName(RoundKind kind) {
  switch (kind) {
    case RoundKind::pin: return "pin";
    case RoundKind::hole: return "hole";
    case RoundKind::ball: return "ball";
    case RoundKind::socket: break;
  }
  return "socket";
}

std::string andShift(const StageFit& fit) {
  const Vector3d by = fit.X.translation();
  return by.norm() > 0.05 ? ", and stands off by " + place(by) + " mm" : "";
}

std::string axisWords(const Eigen::Matrix3d& R) {
  std::string text;
  for (int i = 0; i < 3; ++i) {
    const std::string to = axisOf(R.col(i));
    if (to == kAxes[static_cast<std::size_t>(i)]) continue;
    text += (text.empty() ? "the block's " : ", its ") + std::string(kAxes[static_cast<std::size_t>(i)]) +
            " is " + to;
  }
  return text;
}

std::string turnWords(const Eigen::Affine3d& X) {
  const Eigen::AngleAxisd turn(X.linear());
  return "is turned by " + decimals(degFromRad(turn.angle()), 1) + "° about " + place(turn.axis()) +
         " against its block";
}

std::string mirrorWords(const Eigen::Affine3d& X) {
  const Eigen::Matrix3d R = X.linear();
  int turnedRound = -1, count = 0;
  for (int i = 0; i < 3; ++i) {
    if (R(i, i) < -0.999) turnedRound = i, ++count;
  }
  const bool inOne = count == 1 && R.trace() > 0.999;
  return inOne ? "is its block's mirror image in " + std::string(kAxes[static_cast<std::size_t>(turnedRound)])
               : "is a mirror image of its block";
}

}  // namespace

std::string place(const Vector3d& p) {
  return "(" + decimals(p.x(), 2) + ", " + decimals(p.y(), 2) + ", " + decimals(p.z(), 2) + ")";
}

std::string change(double mm) {
  const double size = std::abs(mm);
  return decimals(mm, size > 0 && size < 0.005 ? 4 : 2) + " mm";
}

std::string towards(const Vector3d& by) {
  const Vector3d unit = by.normalized();
  if (unit.cwiseAbs().maxCoeff() > std::cos(2 * kPi / 180)) {
    const std::string axis = axisOf(unit);
    return "towards " + (axis[0] == '-' ? axis : "+" + axis);
  }
  return "by " + place(by) + " mm";
}

std::string roundName(const RoundChange& change) {
  const RoundPlace& known = change.before ? *change.before : *change.after;
  std::string joints;
  for (const std::string& joint : change.joints) joints += (joints.empty() ? "" : " and ") + joint;
  return (joints.empty() ? "" : joints + "'s ") + decimals(2 * known.radiusMm, 2) + " mm " +
         kindName(known.kind);
}

std::string roundSentence(const RoundChange& change) {
  if (!change.isChanged()) return {};
  const std::string name = roundName(change);
  if (!change.before) return name + " is new at " + place(change.after->at);
  const std::string at = " at " + place(change.before->at);
  if (change.filled) return name + at + " is filled";
  if (!change.after) return name + at + " is not there any more";
  std::string text;
  const auto add = [&](const std::string& more) { text += (text.empty() ? " " : ", ") + more; };
  if (change.isMoved()) add("moved " + words::change(change.movedMm()) + " " + towards(change.moved));
  if (change.isTurned()) add("turned " + decimals(degFromRad(change.turnedRad), 1) + "°");
  if (change.isResized()) {
    add("is " + words::change(std::abs(change.widerMm)) + (change.widerMm > 0 ? " wider" : " narrower"));
  }
  return name + text;
}

std::string factorSentence(double factor) {
  if (factor == 1) return {};
  const bool small = factor > 1;
  char text[40];
  std::snprintf(text, sizeof text, "%.4g", small ? factor : 1 / factor);
  return std::string("is ") + text + " times too " + (small ? "small" : "large") + " against its block";
}

std::string fitSentence(const StageFit& fit) {
  switch (fit.kind) {
    case StageFitKind::fits:
      break;
    case StageFitKind::shifted:
      return "stands " + change(fit.X.translation().norm()) + " off its block, " +
             towards(fit.X.translation());
    case StageFitKind::turned:
      return turnWords(fit.X) + andShift(fit);
    case StageFitKind::swapped:
      return "has other axes than its block: " + axisWords(fit.X.linear()) + andShift(fit);
    case StageFitKind::mirrored:
      return mirrorWords(fit.X) + andShift(fit);
    case StageFitKind::other:
      return "does not look like its block: even laid on it as well as it goes, the two are " +
             change(fit.apartUndoneMm) + " apart on average";
  }
  return {};
}

std::string fitHint(const StageFit& fit) {
  switch (fit.kind) {
    case StageFitKind::fits:
      break;
    case StageFitKind::shifted:
      return "its origin was moved: move it back by " + place(-fit.X.translation()) +
             " mm, or export it in the block's frame";
    case StageFitKind::turned:
      return "turn it back, or export it in the block's frame";
    case StageFitKind::swapped:
      return "export it with the axes of the block";
    case StageFitKind::mirrored:
      return "export it without mirroring, or name the other side's file";
    case StageFitKind::other:
      return "is it another part's file?";
  }
  return {};
}

std::string wallSentence(const WallChange& wall) {
  return "a wall at " + place(wall.at) + " is " + change(wall.afterMm) +
         " thick or less; in the block it is " + change(wall.beforeMm) + " there";
}

}  // namespace swingroom::words
