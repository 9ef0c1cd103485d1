#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "core/sweep/contacts.h"
#include "core/sweep/deepest.h"
#include "core/sweep/free_step.h"
#include "core/sweep/interval_gap.h"
#include "core/sweep/mover.h"
#include "core/sweep/plan.h"
#include "core/sweep/sweep.h"
#include "core/sweep/timeline.h"

namespace swingroom {
namespace {

Verdict verdictOf(Standing standing) {
  switch (standing) {
    case Standing::clash:
      return Verdict::clash;
    case Standing::tight:
      return Verdict::tight;
    case Standing::clear:
      return Verdict::clear;
    case Standing::unproven:
      break;
  }
  return Verdict::unproven;
}

bool overlapInTime(const TrackPiece& piece, double from, double to) { return piece.from <= to && piece.to >= from; }

class PairChecker {
 public:
  PairChecker(const Assembly& assembly, const std::vector<Mode>& modes, const Sequence& sequence,
              const AssemblyGeometry& geometry, PartId a, PartId b, const SweepSettings& settings,
              const WorkMonitor& monitor)
      : assembly_(assembly),
        modes_(modes),
        sequence_(sequence),
        geometry_(geometry),
        settings_(settings),
        monitor_(monitor),
        a_(*geometry.at(a.index)),
        b_(*geometry.at(b.index)),
        plan_(planPair(assembly, sequence, geometry, a, b, settings.resolutionMm)) {
    result_.a = a;
    result_.b = b;
    result_.requiredGapMm = assembly.requiredGapMm(a, b);
    result_.insideJudged = a_.solid.isClosed() && b_.solid.isClosed();
  }

  /// Points are in A's frame: so the result depends on nothing but how the two move against each other.
  PairResult run() {
    for (const PlannedTrack& track : plan_.tracks) follow(track);
    findContained();
    if (monitor_.cancelled()) return result_;
    tellStretches();
    tellGap();
    tellJoint();
    tellModes();
    result_.looseContacts =
        looseContacts(assembly_, modes_, sequence_, geometry_, result_.a, result_.b, settings_.resolutionMm);
    tellVerdict();
    return result_;
  }

 private:
  OverlapProbe probeOf(const PlannedTrack& track) const {
    return {track.a.get(), track.b.get(), &a_.solid, &b_.solid, &monitor_};
  }

  void follow(const PlannedTrack& planned) {
    TrackQuestion question;
    question.neededMm = planned.neededMm;
    question.mattersBelowMm = planned.mattersBelowMm;
    question.resolutionMm = settings_.resolutionMm;
    question.budget = settings_.budget;
    Track track = followTrack(planned.a->tree, planned.b->tree, planned.phases, question, monitor_);
    result_.nodeTests += track.nodeTests;
    raw_.insert(raw_.end(), track.pieces.begin(), track.pieces.end());
    for (const Phase& phase : planned.phases) {
      if (phase.anyOrder && !standsIn(track.pieces, phase, Standing::clash)) followAnyOrder(planned, question, phase, track);
    }
    excuse(planned, track.pieces);
    if (planned.role == TrackRole::zone || planned.role == TrackRole::zoneRim) {
      zonePieces_.insert(zonePieces_.end(), track.pieces.begin(), track.pieces.end());
    }
    pieces_.insert(pieces_.end(), track.pieces.begin(), track.pieces.end());
    tracks_.push_back(std::move(track));
  }

  /// For more than an instant at the phase's ends, which neighbouring phases share.
  static bool standsIn(const std::vector<TrackPiece>& pieces, const Phase& phase, Standing standing) {
    return std::any_of(pieces.begin(), pieces.end(), [&](const TrackPiece& piece) {
      return piece.standing == standing && piece.from < phase.to && piece.to > phase.from;
    });
  }

  /// Where the joints of a step may go in any order. What all moving together shows is known already.
  void followAnyOrder(const PlannedTrack& planned, const TrackQuestion& question, const Phase& phase, Track& track) {
    const FreeStepTrack any =
        followFreeStep(planned.a->tree, planned.b->tree, *phase.motion, question, monitor_);
    result_.nodeTests += any.nodeTests;
    track.least.lowerMm = std::min(track.least.lowerMm, any.least.lowerMm);
    const double knownMm = track.least.upperMm.value_or(std::numeric_limits<double>::infinity());
    const bool nearer = any.least.upperMm && *any.least.upperMm < knownMm - kTouchMm;
    if (nearer) {
      track.least.upperMm = any.least.upperMm;
      track.least.onA_A = any.least.onA_A;
      track.least.onB_A = any.least.onB_A;
      track.least.instant = 0.5 * (phase.from + phase.to);
      track.least.parts = any.parts;
    }
    const bool zone = planned.role == TrackRole::zone || planned.role == TrackRole::zoneRim;
    if (zone) zonePieces_.push_back({phase.from, phase.to, any.standing});
    Standing standing = any.standing;
    // What a contact excuses is said of the way in which all move together.
    const bool excused = planned.excuse.everywhere || planned.excuse.atStart || planned.excuse.atEnd;
    if (excused && standing != Standing::clear) standing = Standing::unproven;
    if (standing == Standing::unproven) tellAnyOrder(Verdict::unproven, phase, {});
    if (excused || !any.least.upperMm) return;
    const bool told = standsIn(track.pieces, phase, Standing::tight) && !nearer;
    if (standing == Standing::clash) {
      tellClashOf(planned, phase, any.parts);
    } else if (*any.least.upperMm < question.neededMm - kSlackMm && !told) {
      tellAnyOrder(Verdict::tight, phase, any.parts);
    }
  }

  Stretch& tellAnyOrder(Verdict verdict, const Phase& phase, const std::vector<double>& parts) {
    Stretch& stretch = anyOrder_.emplace_back();
    stretch.verdict = verdict;
    stretch.from = phase.from;
    stretch.to = phase.to;
    stretch.combination = combinationOf(phase, parts);
    return stretch;
  }

  void tellClashOf(const PlannedTrack& planned, const Phase& phase, const std::vector<double>& parts) {
    Stretch& stretch = tellAnyOrder(Verdict::clash, phase, parts);
    const OverlapProbe probe = probeOf(planned);
    if (!settings_.depths || !probe.canMeasure()) return;
    const Overlap overlap = overlapAt(probe, phase.motion->at(parts).X_AB);
    stretch.depthMm = overlap.depthMm;
    if (overlap.depthMm > 0) stretch.point_W = overlap.point_A;
  }

  static std::vector<JointStand> combinationOf(const Phase& phase, const std::vector<double>& parts) {
    std::vector<JointStand> combination;
    for (const auto& link : phase.motion->links()) {
      if (!link.moves || parts.empty()) continue;
      combination.push_back({link.id, valueBetween(*link.joint, link.start, link.end, parts.at(link.freedom))});
    }
    return combination;
  }

  void excuse(const PlannedTrack& planned, std::vector<TrackPiece>& pieces) {
    const auto pass = [&](TrackPiece& piece) {
      const bool touches = piece.standing == Standing::clash;
      if (piece.standing == Standing::tight || (touches && passes(planned, piece))) piece.standing = Standing::clear;
    };
    if (planned.excuse.everywhere) {
      for (TrackPiece& piece : pieces) pass(piece);
    }
    // The approach to a mode's contact: the stretch that holds the mode's instant.
    if (planned.excuse.atStart) {
      for (auto p = pieces.begin(); p != pieces.end() && p->standing != Standing::clear; ++p) pass(*p);
    }
    if (planned.excuse.atEnd) {
      for (auto p = pieces.rbegin(); p != pieces.rend() && p->standing != Standing::clear; ++p) pass(*p);
    }
  }

  bool passes(const PlannedTrack& planned, const TrackPiece& piece) const {
    if (std::isinf(planned.excuse.depthMm)) return true;
    const OverlapProbe probe = probeOf(planned);
    if (!probe.canMeasure()) return false;
    const double mostMm = planned.excuse.depthMm;
    const DepthsOfInterest interest{mostMm, std::nextafter(mostMm, mostMm + 1)};
    return deepestOverlap(probe, planned.phases, piece.from, piece.to, interest).depthMm <= mostMm;
  }

  /// While no surfaces meet, what is inside stays inside: one look in each such run of each phase is enough.
  void findContained() {
    for (const TrackPiece& run : withoutClash(raw_)) {
      for (const Phase& phase : plan_.phases) {
        const double from = std::max(run.from, phase.from), to = std::min(run.to, phase.to);
        if (from > to || (from == to && phase.from < phase.to)) continue;
        const double length = phase.to - phase.from;
        const double part = length > 0 ? (0.5 * (from + to) - phase.from) / length : 0;
        if (contained(phase.motion->at(part).X_AB)) contained_.push_back({from, to, Standing::clash});
      }
    }
    pieces_.insert(pieces_.end(), contained_.begin(), contained_.end());
  }

  bool contained(const Pose& X_AB) const {
    if (!anyInside(b_.solid, a_.solid, X_AB) && !anyInside(a_.solid, b_.solid, X_AB.inverse())) return false;
    // Where the surfaces meet, a corner inside is overlap, which their tracks judge and a zone may excuse.
    const IntervalGap whole = intervalGap(a_.surface->tree, b_.surface->tree, {X_AB, {}}, 0, {0, 2 * kTouchMm});
    return whole.middleMm > kTouchMm;
  }

  static bool anyInside(const Solid& inner, const Solid& outer, const Pose& X_OuterInner) {
    if (outer.boundary().empty()) return false;
    const BoundingTree::Node& box = outer.boundary().root();
    return std::any_of(inner.shellCorners().begin(), inner.shellCorners().end(), [&](const Vector3d& corner) {
      const Vector3d p = X_OuterInner * corner;
      return (p - box.centre).norm() <= box.radius && outer.contains(p);
    });
  }

  void tellStretches() {
    merged_ = worstOf(pieces_);
    for (const TrackPiece& piece : merged_) {
      if (piece.standing == Standing::clear) continue;
      Stretch stretch;
      stretch.verdict = verdictOf(piece.standing);
      stretch.from = piece.from;
      stretch.to = piece.to;
      if (piece.standing == Standing::clash) tellClash(stretch);
      result_.stretches.push_back(stretch);
    }
    result_.stretches.insert(result_.stretches.end(), anyOrder_.begin(), anyOrder_.end());
    std::stable_sort(result_.stretches.begin(), result_.stretches.end(),
                     [](const Stretch& a, const Stretch& b) { return a.from < b.from; });
  }

  void tellClash(Stretch& stretch) {
    Overlap deepest;
    deepest.instant = stretch.from;
    bool measured = false;
    const auto measure = [&](const OverlapProbe& probe, const std::vector<Phase>& phases) {
      if (!settings_.depths || !probe.canMeasure()) return;
      const Overlap overlap = deepestOverlap(probe, phases, stretch.from, stretch.to);
      if (!measured || overlap.depthMm > deepest.depthMm) deepest = overlap;
      measured = true;
    };
    const PlannedTrack* onset = nullptr;
    for (std::size_t i = 0; i < plan_.tracks.size(); ++i) {
      const auto& pieces = tracks_[i].pieces;
      const bool clashes = std::any_of(pieces.begin(), pieces.end(), [&](const TrackPiece& piece) {
        return piece.standing == Standing::clash && overlapInTime(piece, stretch.from, stretch.to);
      });
      if (!clashes) continue;
      measure(probeOf(plan_.tracks[i]), plan_.tracks[i].phases);
      if (!onset) onset = &plan_.tracks[i];
    }
    const bool inside = std::any_of(contained_.begin(), contained_.end(), [&](const TrackPiece& piece) {
      return overlapInTime(piece, stretch.from, stretch.to);
    });
    if (inside) measure({a_.surface.get(), b_.surface.get(), &a_.solid, &b_.solid, &monitor_}, plan_.phases);
    if (measured) {
      stretch.depthMm = deepest.depthMm;
      stretch.deepestAt = deepest.instant;
      if (deepest.depthMm > 0) stretch.point_W = deepest.point_A;
    }
    if (onset) stretch.mover = moverAt(onset->a->tree, onset->b->tree, onset->phases, stretch.from);
    if (!deepest_ || deepest.depthMm > deepest_->depthMm) deepest_ = deepest;
  }

  GapBracket bracketOf(const std::vector<const Track*>& tracks) const {
    GapBracket gap;
    gap.lowerMm = std::numeric_limits<double>::infinity();
    const LeastGap* least = nullptr;
    for (const Track* track : tracks) {
      gap.lowerMm = std::min(gap.lowerMm, track->least.lowerMm);
      if (track->least.upperMm && (!least || *track->least.upperMm < *least->upperMm)) least = &track->least;
    }
    if (std::isinf(gap.lowerMm)) gap.lowerMm = 0;  // Nothing to look at: no surface is left outside the zones.
    const double mattersMm = result_.requiredGapMm + kMattersAboveRequiredMm;
    if (least && *least->upperMm < mattersMm) {
      gap.upperMm = least->upperMm;
      gap.lowerMm = std::min(gap.lowerMm, *least->upperMm);
      gap.instant = least->instant;
      gap.points_W = {least->onA_A, least->onB_A};
      if (!least->parts.empty()) gap.combination = combinationAt(least->instant, least->parts);
    }
    return gap;
  }

  std::vector<JointStand> combinationAt(double instant, const std::vector<double>& parts) const {
    const auto holds = [&](const Phase& phase) { return phase.anyOrder && phase.from < instant && instant < phase.to; };
    const auto phase = std::find_if(plan_.phases.begin(), plan_.phases.end(), holds);
    return phase == plan_.phases.end() ? std::vector<JointStand>{} : combinationOf(*phase, parts);
  }

  void tellGap() {
    std::vector<const Track*> judged;
    for (std::size_t i = 0; i < tracks_.size(); ++i) {
      const TrackRole role = plan_.tracks[i].role;
      if (role == TrackRole::outside || role == TrackRole::contact) judged.push_back(&tracks_[i]);
    }
    result_.gap = bracketOf(judged);
    // Nothing of the two is outside the zones.
    if (judged.empty()) result_.gap.lowerMm = result_.requiredGapMm + kMattersAboveRequiredMm;
    if (deepest_) {
      result_.gap = {0, 0.0, deepest_->instant, std::nullopt, {}};
      if (deepest_->depthMm > 0) result_.gap.points_W = {deepest_->point_A, deepest_->nearest_A};
    }
  }

  void tellJoint() {
    if (plan_.zoneJoints.empty()) return;
    JointResult joint;
    joint.joint = plan_.zoneJoints.front();
    joint.excusedAreaMm2 = plan_.excusedAreaMm2;
    std::vector<const Track*> inside;
    for (std::size_t i = 0; i < tracks_.size(); ++i) {
      if (plan_.tracks[i].role == TrackRole::zone) inside.push_back(&tracks_[i]);
    }
    joint.gap = bracketOf(inside);
    joint.verdict = Verdict::clear;
    for (const TrackPiece& piece : worstOf(zonePieces_)) joint.verdict = std::min(joint.verdict, verdictOf(piece.standing));
    // An interference fit that nowhere touches does not grip.
    const bool apart = joint.gap.lowerMm > settings_.resolutionMm;
    if (plan_.fitMm && *plan_.fitMm < 0 && apart) joint.verdict = std::min(joint.verdict, Verdict::loose);
    result_.joint = joint;
  }

  void tellModes() {
    struct Stood {
      JudgedSurfaces surfaces;
      Pose X_AB;
      ModeGap gap;
      std::optional<TrianglePair> nearest;
    };
    std::vector<Stood> known;  // Most pairs stand in most modes alike.
    for (std::size_t m = 0; m < modes_.size(); ++m) {
      const Configuration& standing = modes_[m].configuration;
      const JudgedSurfaces surfaces = judgedSurfaces(assembly_, standing, geometry_, result_.a, result_.b);
      const Pose X_AB = standingStill(assembly_, standing, result_.a, result_.b).at(0).X_AB;
      std::optional<TrianglePair> hint;
      const Stood* alike = nullptr;
      for (const Stood& before : known) {
        if (before.surfaces.a != surfaces.a || before.surfaces.b != surfaces.b) continue;
        hint = before.nearest;
        if (before.X_AB.matrix() == X_AB.matrix()) alike = &before;
      }
      ModeGap gap;
      if (alike) {
        gap = alike->gap;
      } else {
        gap = modeGap(surfaces, X_AB, hint);
        known.push_back({surfaces, X_AB, gap, hint});
      }
      gap.mode = ModeId{m};
      result_.modes.push_back(gap);
    }
  }

  /// @param nearest  In: two triangles that are probably near; out: the nearest, if they matter.
  ModeGap modeGap(const JudgedSurfaces& surfaces, const Pose& X_AB, std::optional<TrianglePair>& nearest) const {
    FrontQuestion question;
    question.findBelowMm = result_.requiredGapMm + kMattersAboveRequiredMm;
    question.hint = nearest;
    const IntervalGap own = gapWithin(surfaces.a->tree, surfaces.b->tree, {X_AB, {}}, question, wholeFront());
    nearest = own.found ? std::optional(own.nearest) : std::nullopt;
    if (own.found && own.middleMm <= 2 * kTouchMm) return {{}, 0, 0};
    if (contained(X_AB)) return {{}, 0, 0};
    if (!own.found) return {{}, question.findBelowMm, std::nullopt};
    return {{}, std::max(0.0, own.middleMm - kTouchMm), own.middleMm};
  }
  static constexpr double kTouchMm = 1e-6;  ///< Nearer than this is a touch.

  void tellVerdict() {
    Verdict worst = Verdict::clear;
    for (const Stretch& stretch : result_.stretches) worst = std::min(worst, stretch.verdict);
    if (result_.joint) worst = std::min(worst, result_.joint->verdict);
    if (!result_.looseContacts.empty()) worst = std::min(worst, Verdict::loose);
    const PairRule* rule = assembly_.ruleFor(result_.a, result_.b);
    result_.verdict = rule && rule->allowReason ? Verdict::allowed : worst;
  }

  const Assembly& assembly_;
  const std::vector<Mode>& modes_;
  const Sequence& sequence_;
  const AssemblyGeometry& geometry_;
  const SweepSettings& settings_;
  const WorkMonitor& monitor_;
  const PartGeometry& a_;
  const PartGeometry& b_;
  PairPlan plan_;

  std::vector<Track> tracks_;             ///< One for each planned one.
  std::vector<TrackPiece> raw_;           ///< Of all tracks, before excuses.
  std::vector<TrackPiece> pieces_;        ///< Of all tracks, after excuses, and containment.
  std::vector<TrackPiece> zonePieces_;
  std::vector<TrackPiece> contained_;
  std::vector<TrackPiece> merged_;
  std::vector<Stretch> anyOrder_;         ///< What only another order of joints shows.
  std::optional<Overlap> deepest_;
  PairResult result_;
};

}  // namespace

PairResult checkPairAlone(const Assembly& assembly, const std::vector<Mode>& modes, const Sequence& sequence,
                     const AssemblyGeometry& geometry, PartId a, PartId b, const SweepSettings& settings,
                     const WorkMonitor& monitor) {
  if (!geometry.at(a.index) || !geometry.at(b.index)) throw std::invalid_argument("checkPair: a part has no mesh");
  return PairChecker(assembly, modes, sequence, geometry, a, b, settings, monitor).run();
}

void placeInWorld(const Assembly& assembly, const Sequence& sequence, PairResult& result) {
  const auto poseOfA = [&](double instant, const std::vector<JointStand>& combination) {
    Configuration standing = configurationAt(assembly, sequence, instant);
    for (const JointStand& stand : combination) standing.values[stand.joint.index] = stand.value;
    return posesOf(assembly, standing)[result.a.index];
  };
  const auto placeGap = [&](GapBracket& gap) {
    if (!gap.points_W) return;
    const Pose X_WA = poseOfA(*gap.instant, gap.combination);
    for (Vector3d& point : *gap.points_W) point = X_WA * point;
  };
  placeGap(result.gap);
  if (result.joint) placeGap(result.joint->gap);
  for (Stretch& stretch : result.stretches) {
    if (!stretch.point_W) continue;
    const double instant = stretch.deepestAt.value_or(0.5 * (stretch.from + stretch.to));
    stretch.point_W = poseOfA(instant, stretch.combination) * *stretch.point_W;
  }
}

PairResult checkPair(const Assembly& assembly, const std::vector<Mode>& modes, const Sequence& sequence,
                     const AssemblyGeometry& geometry, PartId a, PartId b, const SweepSettings& settings,
                     const WorkMonitor& monitor) {
  PairResult result = checkPairAlone(assembly, modes, sequence, geometry, a, b, settings, monitor);
  placeInWorld(assembly, sequence, result);
  return result;
}

}  // namespace swingroom
