#include "app/session/same_motion.h"

#include <algorithm>
#include <array>
#include <tuple>

namespace swingroom {
namespace {

bool sameZones(const Joint& a, const Joint& b) {
  return std::equal(a.zones.begin(), a.zones.end(), b.zones.begin(), b.zones.end(),
                    [](const JointZone& one, const JointZone& other) {
                      return one.radiusMm == other.radiusMm && one.fromMm == other.fromMm &&
                             one.toMm == other.toMm;
                    });
}

bool sameJoint(const Joint& a, const Joint& b) {
  const auto follows = [](const Joint& joint) {
    return joint.follows ? std::tuple(joint.follows->leader.index, joint.follows->ratio,
                                      joint.follows->offset)
                         : std::tuple(std::size_t{0}, 0.0, 0.0);
  };
  return a.type == b.type && a.parent == b.parent && a.child == b.child && a.through == b.through &&
         a.along == b.along && a.fitMm == b.fitMm && sameZones(a, b) &&
         a.follows.has_value() == b.follows.has_value() && follows(a) == follows(b);
}

bool sameSteps(const Sequence& a, const Sequence& b) {
  return std::equal(a.steps.begin(), a.steps.end(), b.steps.begin(), b.steps.end(),
                    [](const Step& one, const Step& other) {
                      return one.order == other.order && one.start == other.start &&
                             one.end == other.end;
                    });
}

/// What a contact says in one way.
struct Excuse {
  ContactKind kind;
  std::array<double, 4> spans{};  ///< Overlap and gap.
  bool hasOverlap = false, hasGap = false;
  std::optional<Vector3d> place;
  double radiusMm = 0;
  std::vector<bool> covers;  ///< The first mode, the last, each step.

  bool operator==(const Excuse&) const = default;
};

std::vector<Excuse> excusesIn(const Sequence& way, const PairRule* rule) {
  std::vector<Excuse> excuses;
  if (!rule) return excuses;
  for (const Contact& contact : rule->contacts) {
    Excuse excuse{contact.kind,
                  {},
                  contact.overlapMm.has_value(),
                  contact.gapMm.has_value(),
                  std::nullopt,
                  0,
                  {}};
    if (contact.overlapMm) {
      excuse.spans[0] = contact.overlapMm->min;
      excuse.spans[1] = contact.overlapMm->max;
    }
    if (contact.gapMm) {
      excuse.spans[2] = contact.gapMm->min;
      excuse.spans[3] = contact.gapMm->max;
    }
    if (contact.place) {
      excuse.place = contact.place->at;
      excuse.radiusMm = contact.place->radiusMm;
    }
    const auto& modes = contact.modes;
    const auto& steps = contact.steps;
    for (const ModeId end : {way.from, way.to}) {
      excuse.covers.push_back(std::find(modes.begin(), modes.end(), end) != modes.end());
    }
    for (const Step& step : way.steps) {
      excuse.covers.push_back(std::find(steps.begin(), steps.end(), step.name) != steps.end());
    }
    const auto& covers = excuse.covers;
    if (std::find(covers.begin(), covers.end(), true) != covers.end()) excuses.push_back(excuse);
  }
  return excuses;
}

}  // namespace

bool sameAssembly(const Scene& before, const Scene& now) {
  const auto& parts = before.assembly().parts();
  const auto& partsNow = now.assembly().parts();
  const auto& joints = before.assembly().joints();
  const auto& jointsNow = now.assembly().joints();
  return before.assembly().resolutionMm() == now.assembly().resolutionMm() &&
         std::equal(parts.begin(), parts.end(), partsNow.begin(), partsNow.end(),
                    [](const Part& a, const Part& b) {
                      return a.X_WP_home.matrix() == b.X_WP_home.matrix();
                    }) &&
         std::equal(joints.begin(), joints.end(), jointsNow.begin(), jointsNow.end(), sameJoint);
}

namespace {

/// The same pairs: a part that has a mesh had one before.
bool samePairs(const Scene& before, const Scene& now) {
  return std::equal(before.geometry.begin(), before.geometry.end(), now.geometry.begin(),
                    now.geometry.end(),
                    [](const auto& a, const auto& b) { return (a == nullptr) == (b == nullptr); });
}

}  // namespace

KeptResults::KeptResults(const Scene& before, const Scene& now)
    : before_(before), now_(now), ways_(now.ways.size()) {
  if (!samePairs(before, now) || !sameAssembly(before, now)) return;
  const auto& modes = before.loaded.modes;
  for (const Mode& mode : now.loaded.modes) {
    const auto sameMode = [&](bool byName) {
      return std::find_if(modes.begin(), modes.end(), [&](const Mode& other) {
        return other.configuration == mode.configuration && (!byName || other.name == mode.name);
      });
    };
    auto found = sameMode(true);
    if (found == modes.end()) found = sameMode(false);
    if (found == modes.end()) return;  // Results tell every mode's gap, and of this one none does.
    modesBefore_.push_back(static_cast<std::size_t>(found - modes.begin()));
  }
  for (std::size_t w = 0; w < now.ways.size(); ++w) {
    const auto found = std::find_if(before.ways.begin(), before.ways.end(),
                                    [&](const auto& way) { return sameSteps(way, now.ways[w]); });
    if (found != before.ways.end())
      ways_[w] = static_cast<std::size_t>(found - before.ways.begin());
  }
}

bool KeptResults::sameRule(std::size_t wayBefore, std::size_t way, PartId a, PartId b) const {
  if (before_.assembly().requiredGapMm(a, b) != now_.assembly().requiredGapMm(a, b)) return false;
  const PairRule* was = before_.assembly().ruleFor(a, b);
  const PairRule* is = now_.assembly().ruleFor(a, b);
  if ((was && was->allowReason) != (is && is->allowReason)) return false;
  return excusesIn(before_.ways[wayBefore], was) == excusesIn(now_.ways[way], is);
}

std::optional<PairResult> KeptResults::kept(std::size_t way, const PairResult& result) const {
  const auto wayBefore = ways_.at(way);
  if (!sameSurface(result.a) || !sameSurface(result.b)) return std::nullopt;
  if (!wayBefore || !sameRule(*wayBefore, way, result.a, result.b)) return std::nullopt;
  // Its sentences have the modes' names in them.
  if (!result.looseContacts.empty()) return std::nullopt;
  PairResult kept = result;
  kept.modes.clear();
  for (std::size_t m = 0; m < modesBefore_.size(); ++m) {
    if (modesBefore_[m] >= result.modes.size()) return std::nullopt;
    kept.modes.push_back(result.modes[modesBefore_[m]]);
    kept.modes.back().mode = ModeId{m};
  }
  return kept;
}

bool sameAskedOf(PartId part, const Scene& before, const Scene& now) {
  if (&before == &now) return true;
  if (!sameAssembly(before, now) || before.ways.size() != now.ways.size()) return false;
  const KeptResults kept(before, now);
  for (std::size_t w = 0; w < now.ways.size(); ++w) {
    if (!sameSteps(before.ways[w], now.ways[w])) return false;
    for (std::size_t p = 0; p < now.assembly().parts().size(); ++p) {
      if (p != part.index && !kept.sameRule(w, w, part, PartId{p})) return false;
    }
  }
  return true;
}

}  // namespace swingroom
