#include "core/room/space/room_targets.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "core/sweep/plan.h"
#include "core/sweep/surfaces.h"

namespace swingroom {
namespace {

/// How R and S, in the order of their ids, move against each other in one step.
struct PairMotion {
  const Assembly& assembly;
  PartId region, other;

  RelativeMotion of(const Step& step) const {
    return {assembly, step, std::min(region, other), std::max(region, other)};
  }
  bool regionIsB() const { return other < region; }
};

/// Steps as they count: a replug at the end of a way is looked at after it too.
std::vector<Step> stepsOf(const Sequence& way) {
  std::vector<Step> steps = way.steps;
  const Step& last = way.steps.back();
  if (last.order == StepOrder::replug) steps.push_back({last.name, StepOrder::together, last.end, last.end});
  return steps;
}

/// Spans of a ball's way against a surface.
class Reach {
 public:
  Reach(const Vector3d& ball, double radius) : ball_(ball), radius_(radius) {}

  bool comesNear(const BoundingTree& tree, const Step& step, const RelativeMotion& motion, bool regionIsB,
                 double keptMm) const {
    const auto& root = tree.root();
    const int pieces = motion.isConstant() || step.order == StepOrder::free ? 1 : 8;
    for (int i = 0; i < pieces; ++i) {
      const MotionAtInstant at = motion.at((i + 0.5) / pieces);
      const MotionAtInstant middle = regionIsB ? at : seenFromB(at);
      const Vector3d centre = middle.X_AB * ball_;
      const double travelMm = TravelBounds(middle, 0.5 / pieces).travelMm(centre, radius_);
      if ((centre - root.centre).norm() - root.radius - radius_ - travelMm < keptMm) return true;
    }
    return false;
  }
  const Vector3d& ball() const { return ball_; }
  double radius() const { return radius_; }

 private:
  Vector3d ball_;
  double radius_;
};

bool isNew(const SweptTarget& target, const Pose& X_SR) {
  const auto same = [&](const Pose& X) { return X.isApprox(X_SR, 1e-13); };
  return std::none_of(target.paths.begin(), target.paths.end(), [&](const RegionPath& path) {
    return same(path.X_SR(path.levels(), 0)) || (!path.isConstant() && same(path.X_SR(0, 1)));
  });
}

/// By freedom, how far each can shift a point of the region in all of its way, mm, wherever the others stand.
std::vector<double> travelsOf(const MotionAtInstant& middle, std::size_t freedoms, const Reach& reach) {
  std::vector<double> travels(freedoms, 0);
  const Vector3d centre = middle.X_AB * reach.ball();
  double inner = 0;
  for (auto axis = middle.axes.rbegin(); axis != middle.axes.rend(); ++axis) {
    const double arm = (centre - axis->point).cross(axis->direction).norm() + reach.radius() + 0.5 * inner;
    const double travel = std::abs(axis->slideRateMm) + std::abs(axis->turnRateRad) * arm;
    travels[axis->freedom] += travel;
    inner += travel;
  }
  return travels;
}

/// A step of any order: the joint that goes farthest goes all its way from each of many places of the others.
void addAnyOrder(SweptTarget& target, const RelativeMotion& motion, bool regionIsB, const Reach& reach) {
  constexpr double kSliceMm = 0.1;
  constexpr double kMostSlices = 1024;
  const std::size_t freedoms = motion.freedoms();
  const MotionAtInstant at = motion.at(0.5);
  const std::vector<double> travels = travelsOf(regionIsB ? at : seenFromB(at), freedoms, reach);
  const auto widest = static_cast<std::size_t>(std::max_element(travels.begin(), travels.end()) - travels.begin());
  const double mostEach = std::floor(std::pow(kMostSlices, 1.0 / static_cast<double>(freedoms - 1)) + 1e-9);
  std::vector<std::size_t> slices(freedoms, 1);
  double slackMm = 0;
  std::size_t count = 1;
  for (std::size_t f = 0; f < freedoms; ++f) {
    if (f == widest) continue;
    slices[f] = static_cast<std::size_t>(std::clamp(std::ceil(travels[f] / kSliceMm), 1.0, std::max(1.0, mostEach)));
    slackMm += 0.5 * travels[f] / static_cast<double>(slices[f]);
    count *= slices[f];
  }
  for (std::size_t slice = 0; slice < count; ++slice) {
    std::vector<double> parts(freedoms, 0.5);
    std::size_t rest = slice;
    for (std::size_t f = 0; f < freedoms; ++f) {
      parts[f] = (static_cast<double>(rest % slices[f]) + 0.5) / static_cast<double>(slices[f]);
      rest /= slices[f];
    }
    target.paths.emplace_back(motion, regionIsB, reach.ball(), reach.radius(), parts, widest, slackMm);
  }
}

void addPath(SweptTarget& target, const Step& step, const RelativeMotion& motion, bool regionIsB, const Reach& reach) {
  if (step.order == StepOrder::free && motion.freedoms() > 1) return addAnyOrder(target, motion, regionIsB, reach);
  RegionPath path(motion, regionIsB, reach.ball(), reach.radius());
  if (!path.isConstant() || isNew(target, path.X_SR(0, 0))) target.paths.push_back(std::move(path));
}

class TargetFinder {
 public:
  TargetFinder(const SpaceSubject& subject, const SpaceMargin& margin, const Reach& reach)
      : subject_(subject), margin_(margin), reach_(reach) {}

  std::vector<SweptTarget> run() {
    for (PartId other; other.index < subject_.geometry.size(); ++other.index) {
      if (other == subject_.part || !subject_.geometry[other.index]) continue;
      const PairRule* rule = subject_.assembly.ruleFor(subject_.part, other);
      if (!rule || !rule->allowReason) addPart(other);
    }
    std::vector<SweptTarget> targets;
    for (auto& [key, target] : found_) {
      if (!target.paths.empty()) targets.push_back(std::move(target));
    }
    return targets;
  }

 private:
  void addPart(PartId other) {
    const PairMotion pair{subject_.assembly, subject_.part, other};
    cuts_.clear();
    // What moves first: most standings are an end of it.
    for (const bool still : {false, true}) {
      for (const Sequence& way : subject_.ways) {
        for (const Step& step : stepsOf(way)) {
          const RelativeMotion motion = pair.of(step);
          if (motion.isConstant() == still) addStep(pair, step, motion);
        }
      }
    }
  }

  void addStep(const PairMotion& pair, const Step& step, const RelativeMotion& motion) {
    const Assembly& assembly = subject_.assembly;
    const std::vector<JointId> links = linksBetween(assembly, step.start, pair.region, pair.other);
    const bool fixed = !links.empty() && std::all_of(links.begin(), links.end(), [&](JointId id) {
      return assembly.joint(id).type == JointType::fixed;
    });
    const CutPart& cut = cutOf(pair.other, links);
    add(pair, cut.outside, fixed ? 0 : assembly.requiredGapMm(pair.region, pair.other), step, motion);
    if (cut.inside) add(pair, cut.inside, 0, step, motion);
  }

  /// The other part at the zones of the joints between the two.
  const CutPart& cutOf(PartId other, const std::vector<JointId>& links) {
    const auto [place, isFirst] = cuts_.try_emplace(links);
    if (!isFirst) return place->second;
    std::vector<const Joint*> zoned;
    for (const JointId id : links) {
      if (!subject_.assembly.joint(id).zones.empty()) zoned.push_back(&subject_.assembly.joint(id));
    }
    const auto& whole = subject_.geometry[other.index]->surface;
    place->second = zoned.empty() ? CutPart{nullptr, whole, 0}
                                  : cutAtZones(*whole->mesh, subject_.assembly.part(other).X_WP_home, zoned);
    return place->second;
  }

  void add(const PairMotion& pair, const std::shared_ptr<const Surface>& surface, double neededMm, const Step& step,
           const RelativeMotion& motion) {
    if (surface->tree.empty()) return;
    const double keptMm = margin_.keptFor(neededMm);
    if (!reach_.comesNear(surface->tree, step, motion, pair.regionIsB(), keptMm)) return;
    SweptTarget& target = found_[{pair.other, orderOf(surface), neededMm}];
    target.part = pair.other;
    target.surface = surface;
    target.neededMm = neededMm;
    target.keptMm = keptMm;
    if (!target.bounds) target.bounds = boundsOf(surface->tree);
    addPath(target, step, motion, pair.regionIsB(), reach_);
  }

  /// In the order in which they came up, so that the same targets come out in every run.
  std::size_t orderOf(const std::shared_ptr<const Surface>& surface) {
    const auto known = std::find(surfaces_.begin(), surfaces_.end(), surface);
    if (known != surfaces_.end()) return static_cast<std::size_t>(known - surfaces_.begin());
    surfaces_.push_back(surface);
    return surfaces_.size() - 1;
  }

  const SpaceSubject& subject_;
  const SpaceMargin& margin_;
  const Reach& reach_;
  std::map<std::vector<JointId>, CutPart> cuts_;  ///< Of the part that is looked at.
  std::vector<std::shared_ptr<const Surface>> surfaces_;
  std::map<std::tuple<PartId, std::size_t, double>, SweptTarget> found_;
};

/// The subject's assembly with a part that stands on the ground, if the frame is to be that.
struct FramedAssembly {
  Assembly assembly;
  PartId frame;

  FramedAssembly(const SpaceSubject& subject, std::optional<PartId> in)
      : assembly(withGround(subject.assembly)), frame(in.value_or(PartId{subject.assembly.parts().size()})) {}

  static Assembly withGround(const Assembly& of) {
    AssemblyParts parts{of.name(), 0.3, of.resolutionMm(), of.parts(), of.joints(), {}};
    parts.parts.emplace_back().name = "ground";
    return Assembly(std::move(parts));
  }
  static Step withGround(Step step) {
    step.start.mounts.push_back(0);
    step.end.mounts.push_back(0);
    return step;
  }
};

template <typename Visit>
void forMotions(const SpaceSubject& subject, const FramedAssembly& framed, const Visit& visit) {
  const PairMotion pair{framed.assembly, framed.frame, subject.part};
  for (const Sequence& way : subject.ways) {
    for (const Step& step : stepsOf(way)) visit(step, pair.of(FramedAssembly::withGround(step)), pair.regionIsB());
  }
}

}  // namespace

double SpaceMargin::keptFor(double neededMm) const { return std::hypot(neededMm + thinnedMm, ballMm) + 1e-5; }

std::vector<SweptTarget> roomTargets(const SpaceSubject& subject, const SpaceMargin& margin, const Vector3d& ball_P,
                                     double radiusMm) {
  const Reach reach(ball_P, radiusMm);
  return TargetFinder(subject, margin, reach).run();
}

SweptTarget ownTarget(const SpaceSubject& subject, std::optional<PartId> in, const SpaceMargin& margin,
                      const Vector3d& ball_F, double radiusMm) {
  const FramedAssembly framed(subject, in);
  const Reach reach(ball_F, radiusMm);
  SweptTarget target{subject.part, subject.geometry.at(subject.part.index)->surface, 0, margin.keptFor(0), nullptr, {}};
  target.bounds = boundsOf(target.surface->tree);
  for (const bool still : {false, true}) {
    forMotions(subject, framed, [&](const Step& step, const RelativeMotion& motion, bool regionIsB) {
      if (motion.isConstant() == still) addPath(target, step, motion, regionIsB, reach);
    });
  }
  return target;
}

Eigen::AlignedBox3d sweptBox(const SpaceSubject& subject, std::optional<PartId> in) {
  constexpr int kLooks = 64;
  const FramedAssembly framed(subject, in);
  const auto& surface = *subject.geometry.at(subject.part.index)->surface;
  const auto& root = surface.tree.root();
  Eigen::AlignedBox3d box;
  forMotions(subject, framed, [&](const Step& step, const RelativeMotion& motion, bool regionIsB) {
    const int looks = motion.isConstant() || step.order == StepOrder::free ? 1 : kLooks;
    for (int i = 0; i < looks; ++i) {
      const MotionAtInstant at = motion.at((i + 0.5) / looks);
      const MotionAtInstant own = regionIsB ? seenFromB(at) : at;
      const double travelMm = TravelBounds(own, 0.5 / looks).travelMm(own.X_AB * root.centre, root.radius);
      for (const Vector3d& p : surface.mesh->vertices) {
        const Vector3d here = own.X_AB * p;
        box.extend(Vector3d(here - Vector3d::Constant(travelMm)));
        box.extend(Vector3d(here + Vector3d::Constant(travelMm)));
      }
    }
  });
  return box;
}

ZoneDistance::ZoneDistance(const Assembly& assembly, PartId part, double keptMm) : keptMm_(keptMm) {
  const Pose X_PW = assembly.part(part).X_WP_home.inverse();
  for (const Joint& joint : assembly.joints()) {
    if (joint.child != part && joint.parent != part) continue;
    for (const JointZone& zone : joint.zones) {
      zones_.push_back({joint.type == JointType::ball, X_PW * joint.through, X_PW.linear() * joint.along, zone});
    }
  }
}

double ZoneDistance::at(const Vector3d& p_P) const {
  double least = std::numeric_limits<double>::infinity();
  for (const auto& [isBall, through, along, size] : zones_) {
    const Vector3d off = p_P - through;
    if (isBall) {
      least = std::min(least, off.norm() - std::hypot(size.radiusMm, keptMm_));
      continue;
    }
    const double height = along.dot(off);
    const double across = (off - height * along).norm() - size.radiusMm;
    const double beyond = std::max(size.fromMm - height, height - size.toMm);
    const double outside = std::hypot(std::max(across, 0.0), std::max(beyond, 0.0));
    least = std::min(least, (outside > 0 ? outside : std::max(across, beyond)) - keptMm_);
  }
  return least;
}

}  // namespace swingroom
