#include "app/window/rig/drag_gap.h"

#include "app/models/near_rows.h"

namespace swingroom {

std::optional<StandingGap> nearestMoved(const Scene& scene, const Configuration& standing,
                                        const JointDrive& drive,
                                        const std::vector<StandingGap>& near) {
  constexpr double kAside = 0.01;  // Rad or mm: only who moves with it matters.
  const Assembly& assembly = scene.assembly();
  const auto here = posesOf(assembly, standing);
  const auto there =
      posesOf(assembly, drivenTo(assembly, standing, drive, driven(drive, standing) + kAside));
  const auto moves = [&](PartId part) {
    return !here[part.index].isApprox(there[part.index], 1e-12);
  };
  for (const NearRow& row : nearRows(scene, near, near.size())) {
    if (moves(row.pair.first) == moves(row.pair.second)) continue;
    for (const StandingGap& gap : near) {
      if (PartPair(gap.a, gap.b) == row.pair) return gap;
    }
  }
  return std::nullopt;
}

}  // namespace swingroom
