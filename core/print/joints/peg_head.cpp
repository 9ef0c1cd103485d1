#include "core/print/joints/peg_head.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/print/joints/snap_ring.h"

namespace swingroom {
namespace {

constexpr double kHeadPastMm = 0.02;   // What is nearer to the hole's end is its face.
constexpr double kHeadWiderMm = 0.05;  // On the diameter.
constexpr double kHeadMostShare = 2;   // Of the hole: wider than that it is the part's body.
constexpr double kHeadStemMm = 0.05;   // How far facets of the stem may lie off its circle.
constexpr int kHeadTurn = 36;

/// Radii of the pin's part past both ends of the hole.
struct EndRadii {
  double before = 0, after = 0;
};

EndRadii endRadii(const TriangleMesh& mesh, const Pose& X_AP, double from, double to) {
  EndRadii radii;
  for (const Vector3d& vertex : mesh.vertices) {
    const Vector3d p = X_AP * vertex;
    const double radius = p.head<2>().norm();
    if (p.z() < from - kHeadPastMm) radii.before = std::max(radii.before, radius);
    if (p.z() > to + kHeadPastMm) radii.after = std::max(radii.after, radius);
  }
  return radii;
}

/// The stem's face does not go all round, or something of the part looks into it: a slot.
bool stemSlotted(const TriangleMesh& mesh, const Pose& X_AP, const JointFit& pin) {
  std::array<bool, kHeadTurn> met{};
  const double from = pin.along.front().fromMm, to = pin.along.back().toMm;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    std::array<Vector3d, 3> p;
    bool lies = true;
    for (std::size_t i = 0; i < 3; ++i) {
      p[i] = X_AP * mesh.corner(t, static_cast<int>(i));
      lies &= std::abs(2 * p[i].head<2>().norm() - pin.pinMm) < 2 * kHeadStemMm;
    }
    const auto [low, high] = std::minmax({p[0].z(), p[1].z(), p[2].z()});
    if (!lies || high < from || low > to) continue;
    for (std::size_t i = 0; i < 3; ++i) {
      for (int s = 0; s <= 8; ++s) {
        const Vector3d q = p[i] + s / 8.0 * (p[(i + 1) % 3] - p[i]);
        const double turn = std::atan2(q.y(), q.x()) / (2 * kPi) + 0.5;
        met[static_cast<std::size_t>(turn * kHeadTurn) % kHeadTurn] = true;
      }
    }
  }
  return std::count(met.begin(), met.end(), false) > 0;
}

}  // namespace

std::optional<PegHead> pegHeadOf(const std::vector<RigPart>& parts, const JointFit& pin) {
  const RigPart& part = parts[pin.pinPart.index];
  Pose X_WA = Pose::Identity();
  X_WA.linear().col(2) = pin.along_W;
  X_WA.linear().col(0) = pin.along_W.unitOrthogonal();
  X_WA.linear().col(1) = pin.along_W.cross(X_WA.linear().col(0));
  X_WA.translation() = pin.at_W;
  const Pose X_AP = X_WA.inverse() * part.X_WP;
  double to = pin.along.front().toMm;
  for (const FitAlong& along : pin.along) to = std::max(to, along.toMm);
  const EndRadii ends = endRadii(*part.shape->mesh, X_AP, pin.along.front().fromMm, to);
  const double hole = pin.holeMm, head = 2 * std::min(ends.before, ends.after);
  if (head < std::max(hole, pin.pinMm) + kHeadWiderMm || head > kHeadMostShare * hole)
    return std::nullopt;
  return PegHead{head, hole, openingStrain(head, hole), stemSlotted(*part.shape->mesh, X_AP, pin)};
}

}  // namespace swingroom
