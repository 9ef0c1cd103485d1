#include "core/sweep/standing_gaps.h"

#include <algorithm>

#include "core/sweep/interval_gap.h"

namespace swingroom {
namespace {

constexpr double kMeetMm = 1e-6;  ///< Nearer than this is a touch, as for the check.

/// Least distance of the balls round two placed surfaces; never more than their gap.
double ballGapMm(const Surface& a, const Surface& b, const Pose& X_AB) {
  const auto& ofA = a.tree.root();
  const auto& ofB = b.tree.root();
  return (ofA.centre - X_AB * ofB.centre).norm() - ofA.radius - ofB.radius;
}

}  // namespace

StandingGaps::StandingGaps(const Assembly& assembly, const AssemblyGeometry& geometry)
    : assembly_(assembly), geometry_(geometry), hung_(assembly.parts().size()) {
  for (std::size_t c = 0; c < hung_.size(); ++c) {
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
  }
  for (std::size_t a = 0; a < geometry.size(); ++a) {
    for (std::size_t b = a + 1; b < geometry.size(); ++b) {
      if (!geometry[a] || !geometry[b]) continue;
      whole_[{PartId{a}, PartId{b}}] = {geometry[a]->surface, geometry[b]->surface};
    }
  }
}

const JudgedSurfaces& StandingGaps::surfacesOf(const Configuration& standing, PartId a,
                                               PartId b) const {
  for (const auto& [child, parent] : {std::pair(a, b), std::pair(b, a)}) {
    const Mount* mount = holdingMount(assembly_, standing, child);
    if (mount && mount->parent == parent) {
      return hung_[child.index][standing.mounts[child.index]];
    }
  }
  return whole_.at({a, b});
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
bool StandingGaps::isInside(PartId a, PartId b, const Pose& X_AB) const {
  if (!anyInside(b, a, X_AB) && !anyInside(a, b, X_AB.inverse())) return false;
  const JudgedSurfaces& whole = whole_.at({a, b});
  const IntervalGap gap =
      intervalGap(whole.a->tree, whole.b->tree, {X_AB, {}}, 0, {0, 2 * kMeetMm});
  return !gap.found || gap.middleMm > kMeetMm;
}

std::optional<StandingGap> StandingGaps::measure(const Configuration& standing,
                                                 const std::vector<Pose>& X_WPs, PartId a, PartId b,
                                                 double withinMm) const {
  const JudgedSurfaces& surfaces = surfacesOf(standing, a, b);
  if (!surfaces.a || !surfaces.b || surfaces.a->tree.empty() || surfaces.b->tree.empty()) {
    return std::nullopt;
  }
  const Pose& X_WA = X_WPs[a.index];
  const Pose X_AB = X_WA.inverse() * X_WPs[b.index];
  if (ballGapMm(*surfaces.a, *surfaces.b, X_AB) >= withinMm) return std::nullopt;
  const IntervalGap gap =
      intervalGap(surfaces.a->tree, surfaces.b->tree, {X_AB, {}}, 0, {0, withinMm});
  const bool crossing = gap.found && gap.middleMm <= kMeetMm;
  const bool inside = !crossing && isInside(a, b, X_AB);
  if (!gap.found && !inside) return std::nullopt;
  StandingGap found{a, b, gap.middleMm, crossing || inside, inside, {}};
  if (found.meets) found.gapMm = 0;
  if (!found.meets) found.points_W = {X_WA * gap.onA_A, X_WA * gap.onB_A};
  return found;
}

std::optional<StandingGap> StandingGaps::gapOf(const Configuration& standing, PartId a, PartId b,
                                               double withinMm) const {
  if (b < a) std::swap(a, b);
  if (!geometry_.at(a.index) || !geometry_.at(b.index)) return std::nullopt;
  return measure(standing, posesOf(assembly_, standing), a, b, withinMm);
}

std::vector<StandingGap> StandingGaps::nearPairs(const Configuration& standing,
                                                 double aboveMm) const {
  const std::vector<Pose> X_WPs = posesOf(assembly_, standing);
  std::vector<std::pair<double, StandingGap>> found;
  for (const auto& [pair, surfaces] : whole_) {
    const double requiredMm = assembly_.requiredGapMm(pair.first, pair.second);
    const auto gap = measure(standing, X_WPs, pair.first, pair.second, requiredMm + aboveMm);
    if (gap) found.emplace_back(gap->gapMm - requiredMm, *gap);
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<StandingGap> gaps;
  for (const auto& [margin, gap] : found) gaps.push_back(gap);
  return gaps;
}

}  // namespace swingroom
