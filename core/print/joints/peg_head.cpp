#include "core/print/joints/peg_head.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/print/joints/snap_ring.h"
#include "core/rigging/axis_fit.h"
#include "core/tree/ray_query.h"

namespace swingroom {
namespace {

constexpr double kHeadPastMm = 0.02;   // What is nearer to the hole's end is its face.
constexpr double kHeadWiderMm = 0.05;  // On the diameter.
constexpr double kHeadMostShare = 2;   // Of the hole: wider than that it is the part's body.
constexpr double kHeadStemMm = 0.05;   // How far facets of the stem may lie off its circle.
constexpr int kHeadTurn = 36;
constexpr double kHeadSlotMm = 0.5;   // A side, between a pin and the slot that it is in.
constexpr double kHeadAcross = 0.05;  // Cosine of a pin to its slide.
constexpr int kHeadLooks = 8;

/// A stem on an axis, and what it stands in.
struct PegStem {
  Vector3d at_W, along_W;
  double fromMm = 0, toMm = 0;  ///< Along the axis: where the hole is.
  double stemMm = 0, holeMm = 0;
};

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
bool stemSlotted(const TriangleMesh& mesh, const Pose& X_AP, const PegStem& stem) {
  std::array<bool, kHeadTurn> met{};
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    std::array<Vector3d, 3> p;
    bool lies = true;
    for (std::size_t i = 0; i < 3; ++i) {
      p[i] = X_AP * mesh.corner(t, static_cast<int>(i));
      lies &= std::abs(2 * p[i].head<2>().norm() - stem.stemMm) < 2 * kHeadStemMm;
    }
    const auto [low, high] = std::minmax({p[0].z(), p[1].z(), p[2].z()});
    if (!lies || high < stem.fromMm || low > stem.toMm) continue;
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

std::optional<PegHead> headOn(const RigPart& part, const PegStem& stem) {
  Pose X_WA = Pose::Identity();
  X_WA.linear().col(2) = stem.along_W;
  X_WA.linear().col(0) = stem.along_W.unitOrthogonal();
  X_WA.linear().col(1) = stem.along_W.cross(X_WA.linear().col(0));
  X_WA.translation() = stem.at_W;
  const Pose X_AP = X_WA.inverse() * part.X_WP;
  const EndRadii ends = endRadii(*part.shape->mesh, X_AP, stem.fromMm, stem.toMm);
  const double hole = stem.holeMm, head = 2 * std::min(ends.before, ends.after);
  if (head < std::max(hole, stem.stemMm) + kHeadWiderMm || head > kHeadMostShare * hole)
    return std::nullopt;
  PegHead found;
  found.headMm = head;
  found.holeMm = hole;
  found.strain = openingStrain(head, hole);
  found.slotted = stemSlotted(*part.shape->mesh, X_AP, stem);
  return found;
}

/// The slot round a pin, looked for at places along it: from where to where it is, and its width.
std::optional<PegStem> slotRound(const CylinderFeature& pin, const RigPart& slot,
                                 const Vector3d& along_W) {
  const Vector3d across = pin.along.cross(along_W).normalized();
  const Pose X_SW = slot.X_WP.inverse();
  const auto wall = [&](const Vector3d& p, const Vector3d& way) {
    return firstHit(slot.shape->tree, X_SW * p, X_SW.linear() * way, pin.radiusMm + kHeadSlotMm);
  };
  std::optional<PegStem> found;
  for (int i = 1; i < kHeadLooks; ++i) {
    const double at = pin.fromMm + (pin.toMm - pin.fromMm) * i / kHeadLooks;
    const Vector3d p = pin.through + at * pin.along;
    const auto one = wall(p, across), other = wall(p, -across);
    if (!one || !other) continue;
    const double width = one->distanceMm + other->distanceMm;
    if (width < 2 * pin.radiusMm - kHeadSlotMm) continue;
    if (!found) found = PegStem{pin.through, pin.along, at, at, 2 * pin.radiusMm, width};
    found->toMm = at;
    found->holeMm = std::min(found->holeMm, width);
  }
  return found;
}

}  // namespace

std::optional<PegHead> pegHeadOf(const std::vector<RigPart>& parts, const FitFigure& pin) {
  if (pin.openShare > 0) return std::nullopt;
  PegStem stem{pin.at_W,  pin.along_W, pin.along.front().fromMm, pin.along.front().toMm,
               pin.pinMm, pin.holeMm};
  for (const FitAlong& along : pin.along) stem.toMm = std::max(stem.toMm, along.toMm);
  return headOn(parts[pin.pinPart.index], stem);
}

std::optional<PegHead> slotHeadOf(const std::vector<RigPart>& parts, PartId peg, PartId slot,
                                  const Vector3d& along_W) {
  const RigPart& part = parts[peg.index];
  for (const CylinderFeature& inPart : part.shape->features.cylinders) {
    const CylinderFeature pin = placed(inPart, part.X_WP);
    if (!isPin(pin) || std::abs(pin.along.dot(along_W)) > kHeadAcross) continue;
    const auto stem = slotRound(pin, parts[slot.index], along_W);
    if (!stem) continue;
    auto head = headOn(part, *stem);
    if (!head) continue;
    head->inSlot = true;
    return head;
  }
  return std::nullopt;
}

}  // namespace swingroom
