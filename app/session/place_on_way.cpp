#include "app/session/place_on_way.h"

#include <algorithm>
#include <cmath>

#include "app/session/same_motion.h"

namespace swingroom {
namespace {

constexpr double kSame = 1e-6;  ///< rad or mm.

bool sameStanding(const Configuration& a, const Configuration& b) {
  return a.mounts == b.mounts &&
         std::equal(a.values.begin(), a.values.end(), b.values.begin(), b.values.end(),
                    [](const JointValue& one, const JointValue& other) {
                      return (one - other).cwiseAbs().maxCoeff() <= kSame;
                    });
}

/// How far through the step everything stands so, by the joint that goes farthest.
std::optional<double> partOf(const Assembly& assembly, const Step& step,
                             const Configuration& standing) {
  if (sameStanding(step.start, standing)) return 0;
  if (sameStanding(step.end, standing)) return 1;
  double farthest = kSame, part = -1;
  for (std::size_t j = 0; j < standing.values.size(); ++j) {
    const JointValue& start = step.start.values[j];
    const bool ball = assembly.joint(JointId{j}).type == JointType::ball;
    const double whole = ball ? ballTurn(start, step.end.values[j]).norm()
                              : std::abs(step.end.values[j].x() - start.x());
    if (whole <= farthest) continue;
    const double gone = ball ? ballTurn(start, standing.values[j]).norm()
                             : std::abs(standing.values[j].x() - start.x());
    farthest = whole;
    part = gone / whole;
  }
  if (!(part > 0 && part < 1)) return std::nullopt;
  if (!sameStanding(configurationIn(assembly, step, part), standing)) return std::nullopt;
  return part;
}

std::optional<std::size_t> sameWay(const Scene& before, std::size_t way, const Scene& now) {
  const std::string& name = before.ways[way].name;
  for (std::size_t w = 0; w < now.ways.size(); ++w) {
    if (now.ways[w].name == name) return w;
  }
  const KeptResults kept(before, now);
  for (std::size_t w = 0; w < now.ways.size(); ++w) {
    if (kept.wayBefore(w) == way) return w;
  }
  return std::nullopt;
}

}  // namespace

std::optional<double> instantOf(const Assembly& assembly, const Sequence& way,
                                const Configuration& standing) {
  if (standing.values.size() != assembly.joints().size() ||
      standing.mounts.size() != assembly.parts().size()) {
    return std::nullopt;
  }
  const double count = static_cast<double>(way.steps.size());
  for (std::size_t s = 0; s < way.steps.size(); ++s) {
    const auto part = partOf(assembly, way.steps[s], standing);
    if (part) return (static_cast<double>(s) + *part) / count;
  }
  return std::nullopt;
}

std::optional<WayPlace> samePlace(const Scene& before, const WayPlace& place, const Scene& now) {
  const auto way = sameWay(before, place.way, now);
  if (!way) return std::nullopt;
  const Sequence& was = before.ways[place.way];
  const Sequence& is = now.ways[*way];
  WayPlace there{*way, place.instant};
  if (place.instant <= 0 || place.instant >= 1) return there;  // In a mode it stays.
  const Configuration standing = configurationAt(before.assembly(), was, place.instant);
  const bool comparable = before.assembly().joints().size() == now.assembly().joints().size();
  if (comparable && sameStanding(configurationAt(now.assembly(), is, place.instant), standing)) {
    return there;
  }
  if (const auto instant = instantOf(now.assembly(), is, standing)) {
    there.instant = *instant;
    return there;
  }
  const StepInstant at = stepAt(was, place.instant);
  for (std::size_t s = 0; s < is.steps.size(); ++s) {
    if (is.steps[s].name != was.steps[at.step].name) continue;
    there.instant = (static_cast<double>(s) + at.part) / static_cast<double>(is.steps.size());
    break;
  }
  return there;
}

}  // namespace swingroom
