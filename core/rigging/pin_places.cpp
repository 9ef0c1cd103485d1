#include "core/rigging/pin_places.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "core/rigging/axis_fit.h"
#include "core/rigging/joint_tree.h"
#include "core/rigging/rig_words.h"

namespace swingroom {
namespace {

constexpr double kMostOffAxisMm = 0.1;
constexpr double kMostGapMm = 1.5;  // Between two holes that one pin goes through.
constexpr double kMostLooseMm = 1.0, kMostTightMm = 0.3;  // On the diameter.
constexpr double kRoundRad = radFromDeg(300);
constexpr double kMostOutMm = 1.0;  // That a pin may be longer than its holes.
constexpr double kLeastInMm = 1.0;  // That it must be in each part.
constexpr double kTakenMm = 0.5;

struct Hole {
  std::size_t part = 0, feature = 0;
  CylinderFeature at;           // In W, along the chain's axis.
  double fromMm = 0, toMm = 0;  // Along the chain's axis from its point.
};

/// Holes one behind the other on one axis.
struct Chain {
  Vector3d through, along;
  std::vector<Hole> holes;  // By `fromMm`.

  double fromMm() const { return holes.front().fromMm; }
  double toMm() const {
    double to = holes.front().toMm;
    for (const Hole& hole : holes) to = std::max(to, hole.toMm);
    return to;
  }
  std::set<std::size_t> parts() const {
    std::set<std::size_t> found;
    for (const Hole& hole : holes) found.insert(hole.part);
    return found;
  }
};

struct PlainPin {
  std::size_t part = 0;
  bool isFree = false;
  CylinderFeature at;  // In the part's frame.
  double lengthMm = 0;
  Vector3d middle = Vector3d::Zero();  // Of its length, on its axis, in the part's frame.
};

struct Candidate {
  std::size_t pin = 0;  // Index of the pins.
  Chain chain;
  double centreMm = 0;  // Along the chain.
  double score = 0;
};

bool takesPin(const CylinderFeature& hole, double pinRadiusMm) {
  const double clearance = 2 * (hole.radiusMm - pinRadiusMm);
  return !hole.outward && hole.coverageRad >= kRoundRad && clearance >= -kMostTightMm &&
         clearance <= kMostLooseMm;
}

Hole holeAlong(std::size_t part, std::size_t feature, const CylinderFeature& at,
               const Vector3d& through, const Vector3d& along) {
  const double middle = (at.through - through).dot(along);
  const double turned = at.along.dot(along) < 0 ? -1 : 1;
  const double a = middle + turned * at.fromMm, b = middle + turned * at.toMm;
  return {part, feature, at, std::min(a, b), std::max(a, b)};
}

std::vector<Chain> axesOf(const std::vector<RigPart>& parts, double pinRadiusMm) {
  std::vector<Chain> axes;
  for (std::size_t part = 0; part < parts.size(); ++part) {
    if (!parts[part].shape) continue;
    const auto& cylinders = parts[part].shape->features.cylinders;
    for (std::size_t i = 0; i < cylinders.size(); ++i) {
      if (!takesPin(cylinders[i], pinRadiusMm)) continue;
      const CylinderFeature at = placed(cylinders[i], parts[part].X_WP);
      const auto known = std::find_if(axes.begin(), axes.end(), [&](const Chain& axis) {
        const CylinderFeature& first = axis.holes.front().at;
        return std::abs(first.along.dot(at.along)) > 0.999 &&
               offAxis(at, first, at.fromMm, at.toMm) < kMostOffAxisMm;
      });
      if (known == axes.end()) {
        axes.push_back({at.through, at.along, {holeAlong(part, i, at, at.through, at.along)}});
      } else {
        known->holes.push_back(holeAlong(part, i, at, known->through, known->along));
      }
    }
  }
  return axes;
}

std::vector<Chain> chainsOf(const std::vector<RigPart>& parts, double pinRadiusMm) {
  std::vector<Chain> chains;
  for (Chain& axis : axesOf(parts, pinRadiusMm)) {
    std::stable_sort(axis.holes.begin(), axis.holes.end(),
                     [](const Hole& a, const Hole& b) { return a.fromMm < b.fromMm; });
    Chain chain{axis.through, axis.along, {}};
    for (const Hole& hole : axis.holes) {
      if (!chain.holes.empty() && hole.fromMm > chain.toMm() + kMostGapMm) {
        chains.push_back(std::exchange(chain, {axis.through, axis.along, {}}));
      }
      chain.holes.push_back(hole);
    }
    chains.push_back(chain);
  }
  std::erase_if(chains, [](const Chain& chain) { return chain.parts().size() < 2; });
  return chains;
}

/// A pin, of whatever part, stands in it.
bool isTaken(const std::vector<RigPart>& parts, const Chain& chain) {
  CylinderFeature axis;
  axis.through = chain.through;
  axis.along = chain.along;
  for (const RigPart& part : parts) {
    if (!part.shape) continue;
    for (const CylinderFeature& feature : part.shape->features.cylinders) {
      if (!isPin(feature) || feature.radiusMm > chain.holes.front().at.radiusMm + kMostTightMm) {
        continue;
      }
      const CylinderFeature pin = placed(feature, part.X_WP);
      if (std::abs(pin.along.dot(chain.along)) < 0.999) continue;
      const Hole span = holeAlong(0, 0, pin, chain.through, chain.along);
      const double common =
          std::min(span.toMm, chain.toMm()) - std::max(span.fromMm, chain.fromMm());
      if (common < kTakenMm) continue;
      if (offAxis(axis, pin, span.fromMm, span.toMm) < chain.holes.front().at.radiusMm) return true;
    }
  }
  return false;
}

/// Where the pin's middle comes to stand: in the part that is between others, else in the middle.
double centreOf(const Chain& chain, double lengthMm) {
  const double from = chain.fromMm(), to = chain.toMm();
  double centre = (from + to) / 2;
  const std::size_t first = chain.holes.front().part, last = chain.holes.back().part;
  if (first == last) {
    double low = 1e300, high = -1e300;
    for (const Hole& hole : chain.holes) {
      if (hole.part == first) continue;
      low = std::min(low, hole.fromMm);
      high = std::max(high, hole.toMm);
    }
    centre = (low + high) / 2;
  }
  const double half = std::min(lengthMm, to - from) / 2;
  return std::clamp(centre, from + half, to - half);
}

/// How much of the pin is in holes of the part.
double insideMm(const Chain& chain, std::size_t part, double from, double to) {
  double sum = 0;
  for (const Hole& hole : chain.holes) {
    if (hole.part != part) continue;
    sum += std::max(0.0, std::min(to, hole.toMm) - std::max(from, hole.fromMm));
  }
  return sum;
}

std::optional<Candidate> candidateFor(const std::vector<PlainPin>& pins, std::size_t pin,
                                      const Chain& chain) {
  const PlainPin& it = pins[pin];
  if (it.lengthMm > chain.toMm() - chain.fromMm() + kMostOutMm) return std::nullopt;
  Candidate candidate{pin, chain, centreOf(chain, it.lengthMm), 0};
  const double from = candidate.centreMm - it.lengthMm / 2, to = from + it.lengthMm;
  double inside = 0;
  for (const std::size_t part : chain.parts()) {
    const double here = insideMm(chain, part, from, to);
    if (here < kLeastInMm) return std::nullopt;
    inside += here;
  }
  double tightest = kMostLooseMm, holes = 0;
  for (const Hole& hole : chain.holes) {
    tightest = std::min(tightest, 2 * (hole.at.radiusMm - it.at.radiusMm));
    holes += hole.toMm - hole.fromMm;
  }
  candidate.score = inside / holes - 2 * std::abs(tightest - 0.05);
  return candidate;
}

Pose placeOf(const RigPart& part, const PlainPin& pin, const Chain& chain, double centreMm) {
  const Vector3d now = part.X_WP.linear() * pin.at.along;
  const Vector3d wanted = now.dot(chain.along) < 0 ? Vector3d(-chain.along) : chain.along;
  Pose X = part.X_WP;
  if (now.dot(wanted) < 1 - 1e-12) {
    X.linear() =
        Eigen::Quaterniond::FromTwoVectors(now, wanted).toRotationMatrix() * part.X_WP.linear();
  }
  X.translation() = chain.through + centreMm * chain.along - X.linear() * pin.middle;
  return X;
}

bool standsInHole(const std::vector<RigPart>& parts, std::size_t pin) {
  for (std::size_t other = 0; other < parts.size(); ++other) {
    if (other != pin && !axisFitsBetween(parts, pin, other).empty()) return true;
  }
  return false;
}

/// One of each file, one that is free if there is one.
std::vector<PlainPin> pinsOf(const std::vector<RigPart>& parts) {
  std::map<const RigShape*, std::size_t> known;
  std::vector<PlainPin> pins;
  for (std::size_t part = 0; part < parts.size(); ++part) {
    const CylinderFeature* cylinder = plainPinOf(parts[part]);
    if (!cylinder) continue;
    const bool isFree = !standsInHole(parts, part);
    const auto [place, isNew] = known.try_emplace(parts[part].shape.get(), pins.size());
    if (!isNew) {
      if (isFree && !pins[place->second].isFree) {
        pins[place->second].part = part;
        pins[place->second].isFree = true;
      }
      continue;
    }
    double from = cylinder->fromMm, to = cylinder->toMm;
    for (const Vector3d& p : parts[part].shape->mesh->vertices) {
      const double at = (p - cylinder->through).dot(cylinder->along);
      from = std::min(from, at);
      to = std::max(to, at);
    }
    pins.push_back({part, isFree, *cylinder, to - from,
                    cylinder->through + (from + to) / 2 * cylinder->along});
  }
  return pins;
}

PinPlace madePlace(const std::vector<RigPart>& parts, const PlainPin& pin,
                   const Candidate& candidate) {
  PinPlace place;
  place.X_WP = placeOf(parts[pin.part], pin, candidate.chain, candidate.centreMm);
  std::map<std::size_t, double> holes;  // By part: the tightest radius.
  std::vector<std::size_t> order;
  for (const Hole& hole : candidate.chain.holes) {
    const auto [entry, isNew] = holes.try_emplace(hole.part, hole.at.radiusMm);
    entry->second = std::min(entry->second, hole.at.radiusMm);
    if (isNew) order.push_back(hole.part);
  }
  std::string names;
  for (const std::size_t part : order) {
    place.through.push_back(PartId{part});
    names += (names.empty() ? "" : "-") + parts[part].name;
    place.reason += (place.reason.empty() ? "through " : ", ") + parts[part].name + " (hole " +
                    rig::sized(2 * holes[part]) + " mm)";
  }
  place.reason += "; no pin stands there";
  place.name = names + " " + parts[pin.part].name;
  return place;
}

}  // namespace

std::vector<SuggestedPin> pinPlacesOf(const std::vector<RigPart>& parts) {
  const std::vector<PlainPin> pins = pinsOf(parts);
  std::vector<Candidate> candidates;
  for (std::size_t pin = 0; pin < pins.size(); ++pin) {
    for (const Chain& chain : chainsOf(parts, pins[pin].at.radiusMm)) {
      if (isTaken(parts, chain) || chain.parts().count(pins[pin].part)) continue;
      if (auto candidate = candidateFor(pins, pin, chain)) {
        candidates.push_back(std::move(*candidate));
      }
    }
  }
  std::stable_sort(candidates.begin(), candidates.end(),
                   [](const Candidate& a, const Candidate& b) { return a.score > b.score; });
  std::set<std::pair<std::size_t, std::size_t>> used;
  std::map<std::size_t, std::vector<const Candidate*>> accepted;
  for (const Candidate& candidate : candidates) {
    const auto& holes = candidate.chain.holes;
    const bool isFree = std::none_of(holes.begin(), holes.end(), [&](const Hole& hole) {
      return used.count({hole.part, hole.feature}) > 0;
    });
    if (!isFree) continue;
    for (const Hole& hole : holes) used.insert({hole.part, hole.feature});
    accepted[candidate.pin].push_back(&candidate);
  }
  std::vector<SuggestedPin> suggested;
  for (auto& [pin, places] : accepted) {
    std::stable_sort(places.begin(), places.end(), [](const Candidate* a, const Candidate* b) {
      return a->chain.parts() < b->chain.parts();
    });
    const PlainPin& it = pins[pin];
    SuggestedPin found{PartId{it.part}, it.isFree, {}, ""};
    for (const Candidate* candidate : places) {
      found.places.push_back(madePlace(parts, it, *candidate));
    }
    const std::size_t count = found.places.size();
    found.reason = parts[it.part].name + ": pin " + rig::sized(2 * it.at.radiusMm) + " mm thick, " +
                   rig::sized(it.lengthMm) + " mm long: " + std::to_string(count) +
                   (count == 1 ? " place" : " places");
    suggested.push_back(std::move(found));
  }
  return suggested;
}

}  // namespace swingroom
