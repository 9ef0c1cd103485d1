#include "core/print/cautions/finger_gaps.h"

#include <algorithm>
#include <array>
#include <map>

#include "core/print/cautions/pair_fingers.h"

namespace swingroom {
namespace {

constexpr double kSpotMm = 3;  // apart
constexpr std::size_t kMostSpots = 500;

/// Into one: the place of that which closes on a finger, else of that with the most spots.
void takeIn(std::optional<FingerGap>& all, const FingerGap& more, const FingerRods& rods) {
  if (!all) {
    all = more;
    return;
  }
  const bool closes = more.leastMm < rods.thinMm, closed = all->leastMm < rods.thinMm;
  FingerGap merged =
      closes != closed ? (closes ? more : *all) : (more.spots > all->spots ? more : *all);
  merged.from = std::min(all->from, more.from);
  merged.to = std::max(all->to, more.to);
  merged.leastMm = std::min(all->leastMm, more.leastMm);
  merged.mostMm = std::max(all->mostMm, more.mostMm);
  merged.spots = all->spots + more.spots;
  all = merged;
}

/// By PartId: the first part of those that never move against each other, as far as fixed joints
/// without another mount say.
std::vector<std::size_t> rigidGroups(const Assembly& assembly) {
  std::vector<std::size_t> groups;
  for (std::size_t i = 0; i < assembly.parts().size(); ++i) {
    std::size_t root = i;
    for (std::size_t climbed = 0; climbed < assembly.parts().size(); ++climbed) {
      const auto& mounts = assembly.mountsOf(PartId{root});
      if (mounts.size() != 1 || !mounts[0].parent) break;
      const bool fixed =
          std::all_of(mounts[0].joints.begin(), mounts[0].joints.end(),
                      [&](JointId id) { return assembly.joint(id).type == JointType::fixed; });
      if (!fixed) break;
      root = mounts[0].parent->index;
    }
    groups.push_back(root);
  }
  return groups;
}

/// One for each two groups and way, in the order of their first parts.
std::vector<FingerGap> byGroups(const Assembly& assembly, const std::vector<FingerGap>& gaps,
                                const FingerRods& rods) {
  const std::vector<std::size_t> groups = rigidGroups(assembly);
  std::map<std::array<std::size_t, 3>, std::optional<FingerGap>> merged;
  for (const FingerGap& gap : gaps) {
    const auto [low, high] = std::minmax(groups[gap.a.index], groups[gap.b.index]);
    takeIn(merged[{low, high, gap.way}], gap, rods);
  }
  std::vector<FingerGap> whole;
  for (const auto& [key, gap] : merged) whole.push_back(*gap);
  return whole;
}

}  // namespace

bool catchesFinger(double gapMm, const FingerRods& rods) {
  constexpr double kRounding = 1e-9;
  return gapMm >= rods.thinMm - kRounding && gapMm < rods.thickMm - kRounding;
}

std::vector<FingerGap> fingerGaps(const PrintSubject& subject, const FingerRods& rods,
                                  const WorkMonitor& monitor) {
  const std::size_t count = subject.assembly->parts().size();
  std::map<const TriangleMesh*, std::vector<FingerSpot>> spots;
  for (std::size_t i = 0; i < count; ++i) {
    const TriangleMesh* mesh = subject.part(PartId{i}).mesh.get();
    if (subject.hasMesh(PartId{i}) && !spots.contains(mesh))
      spots[mesh] = fingerSpots(*mesh, kSpotMm, kMostSpots);
  }
  const auto spotsOf = [&](PartId id) -> const std::vector<FingerSpot>& {
    return spots.at(subject.part(id).mesh.get());
  };
  std::vector<std::pair<PartId, PartId>> pairs;
  for (PartId a; a.index < count; ++a.index) {
    for (PartId b{a.index + 1}; b.index < count; ++b.index) {
      if (subject.hasMesh(a) && subject.hasMesh(b)) pairs.emplace_back(a, b);
    }
  }
  const FingerRoom room(subject);
  std::vector<std::vector<FingerGap>> found(pairs.size());
  parallelFor(pairs.size(), subject.threads, [&](std::size_t i) {
    const auto [a, b] = pairs[i];
    const bool fromA = spotsOf(a).size() <= spotsOf(b).size();
    for (std::size_t way = 0; way < subject.ways->size(); ++way) {
      const Sequence& sequence = subject.ways->at(way);
      std::optional<FingerGap> whole;
      for (std::size_t step = 0; step < sequence.steps.size(); ++step) {
        if (isCancelled(&monitor)) return;
        const PairStep at{fromA ? a : b, fromA ? b : a, &sequence, way, step};
        const auto gap = fingerGapIn(subject, rods, room, spotsOf(at.spotsOf), at);
        if (gap) takeIn(whole, *gap, rods);
      }
      if (whole) found[i].push_back(*whole);
    }
  });
  std::vector<FingerGap> gaps;
  for (const auto& some : found) gaps.insert(gaps.end(), some.begin(), some.end());
  return byGroups(*subject.assembly, gaps, rods);
}

}  // namespace swingroom
