#include "core/stages/round_change.h"

#include <algorithm>
#include <cmath>

#include "core/mesh/feature_finder.h"

namespace swingroom {
namespace {

using Eigen::Vector3d;

constexpr double kLeastMm = 0.03;
constexpr double kLeastTurnRad = 0.5 * kPi / 180;

/// How far `p` is from the line, or from the point for a ball.
double offLine(const Vector3d& p, const Vector3d& through, const Vector3d& along) {
  const Vector3d off = p - through;
  return (off - off.dot(along) * along).norm();
}

double fromLengthOf(const RoundPlace& place, const Vector3d& p) {
  if (place.isRound()) return (p - place.at).norm();
  const Vector3d off = p - place.at;
  const double beyond = std::max(0.0, std::abs(off.dot(place.along)) - place.lengthMm / 2);
  return std::hypot(beyond, offLine(p, place.at, place.along));
}

/// What one place would be of another, smaller is likelier; none: it is not the same.
std::optional<double> unlikeness(const RoundPlace& a, const RoundPlace& b) {
  if (a.kind != b.kind) return std::nullopt;
  const double radius = std::max(a.radiusMm, b.radiusMm);
  const double wider = std::abs(a.radiusMm - b.radiusMm);
  if (wider > 0.45 * radius) return std::nullopt;
  const double reach = std::max(1.0, 0.9 * radius);
  if (a.isRound()) {
    const double off = (a.at - b.at).norm();
    return off < reach ? std::optional(off + wider) : std::nullopt;
  }
  if (std::abs(a.along.dot(b.along)) < std::cos(20 * kPi / 180)) return std::nullopt;
  const double across = offLine(b.at, a.at, a.along);
  const double apart = std::abs((b.at - a.at).dot(a.along)) - (a.lengthMm + b.lengthMm) / 2;
  if (across >= reach || apart > 0.5) return std::nullopt;
  // Of two stretches of one hole the one that covers the same length.
  return across + wider + 0.05 * std::abs(a.lengthMm - b.lengthMm) +
         0.1 * std::abs((b.at - a.at).dot(a.along));
}

bool isOnJoint(const RoundPlace& place, const JointLine& joint) {
  const double within = std::max(0.3, 0.35 * place.radiusMm);
  if (joint.type == JointType::ball) return place.isRound() && (place.at - joint.through).norm() < within;
  if (joint.type == JointType::fixed) return false;
  if (place.isRound()) return offLine(place.at, joint.through, joint.along) < within;
  return std::abs(place.along.dot(joint.along)) > std::cos(6 * kPi / 180) &&
         offLine(place.at, joint.through, joint.along) < within;
}

/// Whether most of a hole's axis is inside the material.
bool isFilled(const RoundPlace& hole, const StageSurface& surface) {
  if (hole.kind != RoundKind::hole || !surface.hasInside()) return false;
  constexpr int kPlaces = 7;
  int inside = 0;
  for (int i = 0; i < kPlaces; ++i) {
    const double share = (i + 0.5) / kPlaces - 0.5;
    // A little off the axis: it may run along an edge of a fan of triangles.
    const Vector3d p = hole.at + share * 0.9 * hole.lengthMm * hole.along +
                       0.05 * hole.radiusMm * hole.along.unitOrthogonal();
    inside += surface.contains(p) ? 1 : 0;
  }
  return inside * 2 > kPlaces;
}

RoundChange changeBetween(const RoundPlace& before, const RoundPlace& after) {
  RoundChange change;
  change.before = before;
  change.after = after;
  change.accuracyMm = before.residualMm + after.residualMm;
  change.widerMm = 2 * (after.radiusMm - before.radiusMm);
  change.moved = after.at - before.at;
  if (before.isRound()) return change;
  const double turn = std::abs(before.along.dot(after.along));
  change.turnedRad = std::acos(std::min(1.0, turn));
  // Where both run: the middle of the stretch that they share, on either axis.
  const double from = std::max(-before.lengthMm / 2, change.moved.dot(before.along) - after.lengthMm / 2);
  const double to = std::min(before.lengthMm / 2, change.moved.dot(before.along) + after.lengthMm / 2);
  const Vector3d there = before.at + (from + to) / 2 * before.along;
  const Vector3d onAfter = after.at + (there - after.at).dot(after.along) * after.along;
  change.moved = onAfter - there;
  change.moved -= change.moved.dot(before.along) * before.along;
  return change;
}

TriangleMesh piecesNear(const TriangleMesh& mesh, const RoundPlace& place) {
  const double reach = 1.5 * place.radiusMm + 0.7;
  std::vector<std::uint32_t> index(mesh.vertices.size(), 0xffffffff);
  TriangleMesh some;
  for (const Triangle& triangle : mesh.triangles) {
    const bool isNear = std::any_of(triangle.begin(), triangle.end(), [&](std::uint32_t v) {
      return fromLengthOf(place, mesh.vertices[v]) < reach;
    });
    if (!isNear) continue;
    Triangle own;
    for (std::size_t i = 0; i < 3; ++i) {
      std::uint32_t& number = index[triangle[i]];
      if (number == 0xffffffff) {
        number = static_cast<std::uint32_t>(some.vertices.size());
        some.vertices.push_back(mesh.vertices[triangle[i]]);
      }
      own[i] = number;
    }
    some.triangles.push_back(own);
  }
  return some;
}

void nameJoints(RoundChange& change, const std::vector<JointLine>& joints) {
  for (const JointLine& joint : joints) {
    const bool was = change.before && isOnJoint(*change.before, joint);
    const bool is = change.after && isOnJoint(*change.after, joint);
    if (was || is) change.joints.push_back(joint.name);
  }
}

}  // namespace

bool RoundChange::isMoved() const {
  return before && after && movedMm() > std::max(kLeastMm, accuracyMm);
}

bool RoundChange::isTurned() const {
  if (!before || !after || before->isRound()) return false;
  const double length = std::max(0.5, std::min(before->lengthMm, after->lengthMm));
  return turnedRad > std::max(kLeastTurnRad, 2 * accuracyMm / length);
}

bool RoundChange::isResized() const {
  return before && after && std::abs(widerMm) > std::max(kLeastMm, 2 * accuracyMm);
}

std::vector<JointLine> jointLinesOf(const Assembly& assembly, PartId part) {
  const Pose X_PW = assembly.part(part).X_WP_home.inverse();
  std::vector<JointLine> lines;
  for (const Joint& joint : assembly.joints()) {
    if (joint.type == JointType::fixed || (joint.child != part && joint.parent != part)) continue;
    lines.push_back({joint.name, joint.type, X_PW * joint.through, X_PW.linear() * joint.along});
  }
  return lines;
}

std::vector<RoundPlace> roundPlacesOf(const Features& features) {
  std::vector<RoundPlace> places;
  for (const CylinderFeature& c : features.cylinders) {
    const double coverage = c.coverageRad / (2 * kPi);
    if (coverage < 1.0 / 3) continue;
    places.push_back({c.outward ? RoundKind::pin : RoundKind::hole,
                      c.through + (c.fromMm + c.toMm) / 2 * c.along, c.along, c.radiusMm,
                      c.toMm - c.fromMm, c.residualMm, coverage});
  }
  for (const BallFeature& b : features.balls) {
    if (b.share < 0.1) continue;
    places.push_back({b.outward ? RoundKind::ball : RoundKind::socket, b.centre, Vector3d::UnitZ(),
                      b.radiusMm, 0, b.residualMm, b.share});
  }
  return places;
}

std::vector<RoundPlace> roundPlacesOf(const StageSurface& stage) {
  return roundPlacesOf(featuresOf(stage.mesh()));
}

std::vector<RoundPlace> roundPlacesNear(const StageSurface& stage, const RoundPlace& place) {
  const TriangleMesh some = piecesNear(stage.mesh(), place);
  if (some.triangles.empty()) return {};
  return roundPlacesOf(featuresOf(some));
}

std::vector<RoundChange> roundChanges(const std::vector<RoundPlace>& before,
                                      const std::vector<RoundPlace>& after,
                                      const StageSurface& afterSurface,
                                      const std::vector<JointLine>& joints) {
  struct Match {
    double unlike;
    std::size_t b, a;
  };
  std::vector<Match> matches;
  for (std::size_t b = 0; b < before.size(); ++b) {
    for (std::size_t a = 0; a < after.size(); ++a) {
      if (const auto unlike = unlikeness(before[b], after[a])) matches.push_back({*unlike, b, a});
    }
  }
  std::stable_sort(matches.begin(), matches.end(),
                   [](const Match& x, const Match& y) { return x.unlike < y.unlike; });
  std::vector<std::optional<std::size_t>> ofBefore(before.size());
  std::vector<char> taken(after.size(), 0);
  for (const Match& match : matches) {
    if (ofBefore[match.b] || taken[match.a]) continue;
    ofBefore[match.b] = match.a;
    taken[match.a] = 1;
  }
  std::vector<RoundChange> changes;
  for (std::size_t b = 0; b < before.size(); ++b) {
    if (ofBefore[b]) {
      changes.push_back(changeBetween(before[b], after[*ofBefore[b]]));
      continue;
    }
    RoundChange gone;
    gone.before = before[b];
    gone.accuracyMm = before[b].residualMm;
    gone.filled = isFilled(before[b], afterSurface);
    changes.push_back(gone);
  }
  for (std::size_t a = 0; a < after.size(); ++a) {
    if (taken[a]) continue;
    RoundChange appeared;
    appeared.after = after[a];
    appeared.accuracyMm = after[a].residualMm;
    changes.push_back(appeared);
  }
  for (RoundChange& change : changes) nameJoints(change, joints);
  return changes;
}

std::vector<RoundChange> jointPlaceChanges(const StageSurface& block, const StageSurface& detail,
                                           const std::vector<JointLine>& joints) {
  std::vector<RoundChange> changes;
  for (const RoundPlace& place : roundPlacesOf(block)) {
    RoundChange change;
    change.before = place;
    change.accuracyMm = place.residualMm;
    // An arc is no hole, and a hole of the block may have a pin of its own in it.
    const bool isBore = place.kind == RoundKind::hole && place.coverage > 0.6;
    change.filled = isBore && !isFilled(place, block) && isFilled(place, detail);
    nameJoints(change, joints);
    if (!change.filled) {
      if (change.joints.empty()) continue;
      const std::vector<RoundPlace> near = roundPlacesNear(detail, place);
      for (const RoundChange& found : roundChanges({place}, near, detail, joints)) {
        if (found.before && found.after) change = found;
      }
      if (!change.after) continue;  // Not round any more, or not found: the check tells what it means.
    }
    changes.push_back(change);
  }
  return changes;
}

}  // namespace swingroom
