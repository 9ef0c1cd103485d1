#include "core/sweep/standing_gaps.h"

#include <algorithm>
#include <cmath>

#include "core/base/parallel.h"

namespace swingroom {
namespace {

constexpr double kMeetMm = 1e-6;  ///< Nearer than this is a touch, as for the check.
/// Pairs are looked at this much farther than asked: while they move by less, nothing is to be done.
constexpr double kReserveMm = 1;

using Node = BoundingTree::Node;

/// Least distance of the balls round two placed surfaces; never more than their gap.
double ballGapMm(const Surface& a, const Surface& b, const Pose& X_WA, const Pose& X_WB) {
  const Node& ofA = a.tree.root();
  const Node& ofB = b.tree.root();
  return (X_WA * ofA.centre - X_WB * ofB.centre).norm() - ofA.radius - ofB.radius;
}

/// No point of the ball is moved farther than this from one pose to the other.
double movedMm(const Pose& before, const Pose& now, const Node& ball) {
  // The difference of two rotations lengthens a vector by its norm at most: Frobenius / sqrt 2.
  const double turned = (now.linear() - before.linear()).norm() * std::sqrt(0.5);
  return (now * ball.centre - before * ball.centre).norm() + turned * ball.radius;
}

/// With its points, given in A's frame, in the world's.
std::optional<StandingGap> placed(std::optional<StandingGap> gap, const Pose& X_WA) {
  if (!gap || gap->meets) return gap;
  for (Vector3d& point : gap->points_W) point = X_WA * point;
  return gap;
}

bool hasBoth(const JudgedSurfaces& surfaces) {
  return surfaces.a && surfaces.b && !surfaces.a->tree.empty() && !surfaces.b->tree.empty();
}

}  // namespace

StandingGaps::StandingGaps(const Assembly& assembly, const AssemblyGeometry& geometry,
                           unsigned threads)
    : assembly_(assembly),
      geometry_(geometry),
      hung_(assembly.parts().size()),
      placeOfPair_(assembly.parts().size() * assembly.parts().size()) {
  parallelFor(hung_.size(), threads, [&](std::size_t c) {
    const PartId child{c};
    for (std::size_t m = 0; m < assembly.mountsOf(child).size(); ++m) {
      const auto parent = assembly.mountsOf(child)[m].parent;
      hung_[c].emplace_back();
      if (!parent || !geometry[c] || !geometry[parent->index]) continue;
      Configuration standing = assembly.home();
      standing.mounts[c] = m;
      hung_[c][m] = judgedSurfaces(assembly, standing, geometry, std::min(child, *parent),
                                   std::max(child, *parent));
    }
  });
  for (PartId a; a.index < geometry.size(); ++a.index) {
    for (PartId b{a.index + 1}; b.index < geometry.size(); ++b.index) {
      placeOfPair_[a.index * geometry.size() + b.index] = whole_.size();
      if (!geometry[a.index] || !geometry[b.index]) continue;
      whole_.push_back({a, b, {geometry[a.index]->surface, geometry[b.index]->surface},
                        assembly.requiredGapMm(a, b)});
    }
  }
}

const StandingGaps::WholePair& StandingGaps::wholePair(PartId a, PartId b) const {
  return whole_.at(placeOfPair_.at(a.index * geometry_.size() + b.index));
}

const JudgedSurfaces& StandingGaps::surfacesOf(const Configuration& standing, PartId a,
                                               PartId b) const {
  for (const auto& [child, parent] : {std::pair(a, b), std::pair(b, a)}) {
    const Mount* mount = holdingMount(assembly_, standing, child);
    if (mount && mount->parent == parent) {
      return hung_[child.index][standing.mounts[child.index]];
    }
  }
  return wholePair(a, b).surfaces;
}

bool StandingGaps::anyInside(PartId inner, PartId outer, const Pose& X_OuterInner) const {
  const auto& box = solidOf(outer).boundary();
  const auto& corners = solidOf(inner).shellCorners();
  return std::any_of(corners.begin(), corners.end(), [&](const Vector3d& corner) {
    const Vector3d p = X_OuterInner * corner;
    if (box.empty()) return false;
    const Vector3d off = (p - box.root().centre).cwiseAbs() - box.root().half;
    return off.maxCoeff() <= 0 && solidOf(outer).contains(p);
  });
}

/// One wholly inside the other. A pin whose surface meets its hole's in a joint zone is not.
bool StandingGaps::isInside(const WholePair& pair, const Pose& X_AB) const {
  if (!anyInside(pair.b, pair.a, X_AB) && !anyInside(pair.a, pair.b, X_AB.inverse())) return false;
  const JudgedSurfaces& whole = pair.surfaces;
  const IntervalGap gap =
      intervalGap(whole.a->tree, whole.b->tree, {X_AB, {}}, 0, {0, 2 * kMeetMm});
  return !gap.found || gap.middleMm > kMeetMm;
}

GapMemory::Look StandingGaps::lookAt(const WholePair& pair, const JudgedSurfaces& surfaces,
                                     const Pose& X_AB, double withinMm,
                                     const GapMemory::Look* before) const {
  GapMemory::Look look{&surfaces, X_AB, withinMm, {}, 0, {}};
  const BoundingTree& treeA = surfaces.a->tree;
  const BoundingTree& treeB = surfaces.b->tree;
  const MotionAtInstant still{X_AB, {}};
  const double boxesMm = wholeBoxesApart(treeA, treeB, {still, 0});
  FrontQuestion question;
  question.findBelowMm = before ? withinMm + kReserveMm : withinMm;
  question.slackMm = kLiveSlackMm;
  if (before && before->surfaces == &surfaces) question.hint = before->nearest;
  IntervalGap gap;
  gap.middleMm = question.findBelowMm;
  if (boxesMm < question.findBelowMm) gap = gapWithin(treeA, treeB, still, question, wholeFront());
  if (gap.found) look.nearest = gap.nearest;
  const bool crossing = gap.found && gap.middleMm <= kMeetMm;
  const bool inside = !crossing && isInside(pair, X_AB);
  // Of cut surfaces the distance does not say that nothing gets inside.
  const bool uncut = surfaces.a == pair.surfaces.a && surfaces.b == pair.surfaces.b;
  if (uncut && !crossing && !inside) look.apartMm = std::max(boxesMm, gap.middleMm - kLiveSlackMm);
  if (!inside && !(gap.found && gap.middleMm < withinMm)) return look;
  look.answer = StandingGap{pair.a, pair.b, gap.middleMm, crossing || inside, inside, {}};
  if (look.answer->meets) look.answer->gapMm = 0;
  if (!look.answer->meets) look.answer->points_W = {gap.onA_A, gap.onB_A};
  return look;
}

std::optional<StandingGap> StandingGaps::answerFor(const Question& question, const WholePair& pair,
                                                   double withinMm, GapMemory::Look* look) const {
  const JudgedSurfaces& surfaces = surfacesOf(*question.standing, pair.a, pair.b);
  if (!hasBoth(surfaces)) return std::nullopt;
  const Pose& X_WA = question.tree->poses()[pair.a.index];
  const Pose& X_WB = question.tree->poses()[pair.b.index];
  // The balls of the whole parts: of what is inside there is no surface to measure.
  if (ballGapMm(*pair.surfaces.a, *pair.surfaces.b, X_WA, X_WB) >= withinMm) return std::nullopt;
  const Pose X_AB = question.tree->relativePose(pair.a, pair.b);
  if (!look) return placed(lookAt(pair, surfaces, X_AB, withinMm, nullptr).answer, X_WA);
  if (look->surfaces == &surfaces) {
    if (look->withinMm == withinMm && look->X_AB.matrix() == X_AB.matrix())
      return placed(look->answer, X_WA);
    const double movedAtMostMm = movedMm(look->X_AB, X_AB, surfaces.b->tree.root()) + kMeetMm;
    if (look->apartMm - movedAtMostMm >= withinMm) return std::nullopt;
  }
  *look = lookAt(pair, surfaces, X_AB, withinMm, look);
  return placed(look->answer, X_WA);
}

std::optional<StandingGap> StandingGaps::gapOf(const Configuration& standing, PartId a, PartId b,
                                               double withinMm) const {
  if (b < a) std::swap(a, b);
  if (!geometry_.at(a.index) || !geometry_.at(b.index)) return std::nullopt;
  const PartTree tree(assembly_, standing);
  return answerFor({&standing, &tree}, wholePair(a, b), withinMm, nullptr);
}

std::vector<StandingGap> StandingGaps::nearPairs(const Configuration& standing, double aboveMm,
                                                 GapMemory* memory) const {
  const PartTree tree(assembly_, standing);
  if (memory) memory->looks_.resize(whole_.size());
  std::vector<std::pair<double, StandingGap>> found;
  for (std::size_t i = 0; i < whole_.size(); ++i) {
    const WholePair& pair = whole_[i];
    const auto gap = answerFor({&standing, &tree}, pair, pair.requiredMm + aboveMm,
                               memory ? &memory->looks_[i] : nullptr);
    if (gap) found.emplace_back(gap->gapMm - pair.requiredMm, *gap);
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<StandingGap> gaps;
  for (const auto& [margin, gap] : found) gaps.push_back(gap);
  return gaps;
}

}  // namespace swingroom
