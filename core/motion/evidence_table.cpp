#include "core/motion/evidence_table.h"

#include <map>
#include <memory>
#include <optional>
#include <utility>

#include "core/base/parallel.h"

namespace swingroom {
namespace {

using Shapes = std::vector<std::unique_ptr<const PartShape>>;

const Pose& displacementAt(const MotionGroup& group, std::optional<std::size_t> onTheWay) {
  return onTheWay ? group.onTheWay.at(*onTheWay) : group.D;
}

/// All parts with where they are in the second mode, or at one moment on the way.
Shapes shapesOf(const std::vector<PartInTwoModes>& parts, const std::vector<MotionGroup>& groups,
                std::optional<std::size_t> onTheWay, unsigned threads) {
  std::vector<Pose> displacements(parts.size(), Pose::Identity());
  for (const MotionGroup& group : groups) {
    for (const std::size_t part : group.parts) {
      displacements[part] = displacementAt(group, onTheWay);
    }
  }
  Shapes shapes(parts.size());
  parallelFor(parts.size(), threads, [&](std::size_t i) {
    shapes[i] = std::make_unique<const PartShape>(*parts[i].mesh, displacements[i]);
  });
  return shapes;
}

bool boxesNear(const PartShape& a, const PartShape& b) {
  return a.inFirst->bounds().exteriorDistance(b.inFirst->bounds()) < kNearMm ||
         a.inSecond->bounds().exteriorDistance(b.inSecond->bounds()) < kNearMm;
}

/// Faces of parts about one axis, found when first asked for.
class FacesOnAxis {
 public:
  FacesOnAxis(const Shapes& shapes, const Screw& screw) : shapes_(shapes), screw_(screw) {}

  const AxisFaces& of(std::size_t part) {
    const auto [place, isNew] = faces_.try_emplace(part);
    if (isNew) place->second = axisFacesOf(*shapes_[part]->mesh, screw_);
    return place->second;
  }

 private:
  const Shapes& shapes_;
  const Screw& screw_;
  std::map<std::size_t, AxisFaces> faces_;
};

std::vector<PairEvidence> between(const Shapes& shapes, const Pose& X, const MotionGroup& a,
                                  const MotionGroup& b) {
  const Vector3d at = shapes[b.parts.front()]->inFirst->bounds().center();
  const Screw screw = jointScrewOf(X, at);
  FacesOnAxis faces(shapes, screw);
  std::vector<PairEvidence> found;
  for (const std::size_t i : a.parts) {
    for (const std::size_t k : b.parts) {
      if (!boxesNear(*shapes[i], *shapes[k])) continue;
      PairEvidence pair{i, k, screw, {}, 0};
      pair.evidence = evidenceBetween(*shapes[i], *shapes[k], screw, faces.of(i), faces.of(k));
      pair.score = pair.evidence.score(kindOf(screw));
      if (pair.score > 0) found.push_back(std::move(pair));
    }
  }
  return found;
}

/// Two groups, seen where they have moved most; twice the same: within it.
struct GroupTask {
  std::size_t a = 0, b = 0;
  FarthestMotion motion;
};

std::vector<GroupGap> within(const Shapes& shapes, const MotionGroup& group) {
  std::vector<GroupGap> gaps;
  for (std::size_t i = 0; i < group.parts.size(); ++i) {
    for (std::size_t k = i + 1; k < group.parts.size(); ++k) {
      const std::size_t a = group.parts[i], b = group.parts[k];
      const auto gap = shapes[a]->inFirst->gapTo(*shapes[b]->inFirst, kNearMm);
      if (gap) gaps.push_back({a, b, *gap});
    }
  }
  return gaps;
}

}  // namespace

PairEvidence turnedRound(const PairEvidence& pair) {
  PairEvidence turned = pair;
  std::swap(turned.a, turned.b);
  turned.screw.axis = -pair.screw.axis;
  for (PinInHole& pin : turned.evidence.pins) {
    pin.pinIsFirst = !pin.pinIsFirst;
    pin.fromMm = -std::exchange(pin.toMm, -pin.fromMm);
  }
  if (auto& ball = turned.evidence.ball) {
    ball->ballIsFirst = !ball->ballIsFirst;
    ball->centreMm = -ball->centreMm;
  }
  return turned;
}

EvidenceTable gatherEvidence(const std::vector<PartInTwoModes>& parts,
                             const std::vector<MotionGroup>& groups, unsigned threads) {
  std::vector<GroupTask> tasks;
  std::map<std::optional<std::size_t>, Shapes> shapes;  // By moment: those that are looked at.
  for (std::size_t a = 0; a < groups.size(); ++a) {
    for (std::size_t b = a; b < groups.size(); ++b) {
      const Eigen::AlignedBox3d box = boundsOf(*parts[groups[b].parts.front()].mesh);
      tasks.push_back({a, b, farthestMotion(groups[a], groups[b], box)});
      shapes[tasks.back().motion.onTheWay];
    }
  }
  for (auto& [onTheWay, made] : shapes) made = shapesOf(parts, groups, onTheWay, threads);
  std::vector<EvidenceTable> results(tasks.size());
  parallelFor(tasks.size(), threads, [&](std::size_t i) {
    const auto& [a, b, motion] = tasks[i];
    const Shapes& seen = shapes.at(motion.onTheWay);
    if (a == b) {
      results[i].gaps = within(seen, groups[a]);
    } else {
      results[i].pairs = between(seen, motion.X, groups[a], groups[b]);
    }
  });
  EvidenceTable all;
  for (EvidenceTable& result : results) {
    all.pairs.insert(all.pairs.end(), result.pairs.begin(), result.pairs.end());
    all.gaps.insert(all.gaps.end(), result.gaps.begin(), result.gaps.end());
  }
  return all;
}

}  // namespace swingroom
