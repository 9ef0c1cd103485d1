#include "core/room/room_obstacles.h"

#include <algorithm>

#include "core/room/near_pieces.h"
#include "core/sweep/interval_gap.h"

namespace swingroom {
namespace {

constexpr int kWindowDepth = 6;
constexpr int kTouchLooks = 9;  ///< In a step through which a contact holds.

/// Part of a phase.
struct PhaseShare {
  Phase phase;
  double low = 0, high = 1;
};

struct PairObstacles {
  std::vector<RoomObstacle> obstacles;
  std::vector<std::uint32_t> touched;
  std::vector<SwallowedPiece> swallowed;  ///< `obstacle`: in this list.
};

/// All that one other part is to the part through one way.
class PairReader {
 public:
  PairReader(const RoomSubject& subject, const JudgedPieces& pieces, PartId other, std::uint32_t way,
             double withinMm, const WorkMonitor& monitor)
      : subject_(subject),
        pieces_(pieces),
        other_(other),
        way_(way),
        withinMm_(withinMm),
        monitor_(monitor),
        otherIsB_(subject.part < other),
        requiredMm_(subject.assembly.requiredGapMm(subject.part, other)),
        plan_(std::make_shared<const PairPlan>(
            planPair(subject.assembly, subject.ways[way], subject.geometry, std::min(subject.part, other),
                     std::max(subject.part, other), subject.assembly.resolutionMm()))) {}

  PairObstacles read() {
    for (const PlannedTrack& track : plan_->tracks) {
      if (monitor_.cancelled()) break;
      take(track);
    }
    return std::move(found_);
  }

 private:
  const std::shared_ptr<const Surface>& ofPart(const PlannedTrack& track) const {
    return otherIsB_ ? track.a : track.b;
  }
  const std::shared_ptr<const Surface>& ofOther(const PlannedTrack& track) const {
    return otherIsB_ ? track.b : track.a;
  }

  void take(const PlannedTrack& track) {
    switch (track.role) {
      case TrackRole::zone:
        return;
      case TrackRole::zoneRim:
        if (!track.excuse.everywhere && isOutside(track)) add(track, wholePhases(track), 0, false);
        return;
      case TrackRole::outside:
        return add(track, wholePhases(track), requiredMm_);
      case TrackRole::contact:
        return takeContact(track);
    }
  }

  /// Whether the rim is that of the other's zone: then the part's own surface is the one outside.
  bool isOutside(const PlannedTrack& rim) const {
    for (const PlannedTrack& track : plan_->tracks) {
      if (!sharesPhase(track, rim)) continue;
      if (track.role == TrackRole::zone) return ofPart(track) != ofPart(rim);
      const bool judged = track.role == TrackRole::outside || track.role == TrackRole::contact;
      if (judged && ofOther(track) == ofOther(rim)) return false;
    }
    return true;
  }
  static bool sharesPhase(const PlannedTrack& x, const PlannedTrack& y) {
    return x.phases.front().motion == y.phases.front().motion;
  }

  static std::vector<PhaseShare> wholePhases(const PlannedTrack& track) {
    std::vector<PhaseShare> shares;
    for (const Phase& phase : track.phases) shares.push_back({phase, 0, 1});
    return shares;
  }

  void takeContact(const PlannedTrack& track) {
    if (track.excuse.everywhere) {
      for (const Phase& phase : track.phases) {
        const int looks = phase.motion->isConstant() ? 1 : kTouchLooks;
        for (int i = 0; i < looks; ++i) touch(track, phase, looks > 1 ? i / (looks - 1.0) : 0);
      }
      return;
    }
    if (track.excuse.atStart) touch(track, track.phases.front(), 0);
    if (track.excuse.atEnd) touch(track, track.phases.back(), 1);
    add(track, outsideContact(track), requiredMm_);
  }

  void touch(const PlannedTrack& track, const Phase& phase, double part) {
    const auto only = piecesOn(track);
    for (const std::uint32_t piece : piecesNear(pieces_.tree, ofOther(track)->tree, X_OP(phase, part), requiredMm_)) {
      if (!only || (*only)[piece]) found_.touched.push_back(piece);
    }
  }

  Pose X_OP(const Phase& phase, double part) const {
    const Pose X_AB = phase.motion->at(part).X_AB;
    return otherIsB_ ? X_AB.inverse() : X_AB;
  }

  /// What is left of the phases when the stretches are taken off in which the contact holds, as the check
  /// finds them: from a mode's instant until the gap is first at the required one.
  std::vector<PhaseShare> outsideContact(const PlannedTrack& track) const {
    TrackQuestion question;
    question.neededMm = requiredMm_;
    const Track followed = followTrack(track.a->tree, track.b->tree, track.phases, question, monitor_);
    double from = -1, to = 2;
    if (track.excuse.atStart) {
      for (auto p = followed.pieces.begin(); p != followed.pieces.end() && p->standing != Standing::clear; ++p)
        from = p->to;
    }
    if (track.excuse.atEnd) {
      for (auto p = followed.pieces.rbegin(); p != followed.pieces.rend() && p->standing != Standing::clear; ++p)
        to = p->from;
    }
    std::vector<PhaseShare> shares;
    for (const Phase& phase : track.phases) {
      const double length = phase.to - phase.from;
      if (length <= 0 && (phase.from <= from || phase.to >= to)) continue;
      const double low = length > 0 ? std::max(0.0, (from - phase.from) / length) : 0;
      const double high = length > 0 ? std::min(1.0, (to - phase.from) / length) : 1;
      // While they stand still, the contact holds or it does not.
      if (low < high && !(phase.motion->isConstant() && (low > 0 || high < 1))) shares.push_back({phase, low, high});
    }
    return shares;
  }

  /// Where contacts have places, a track is about some of the pieces only. Null: all.
  std::shared_ptr<const std::vector<bool>> piecesOn(const PlannedTrack& track) const {
    const PairRule* rule = subject_.assembly.ruleFor(subject_.part, other_);
    const bool places = rule && std::any_of(rule->contacts.begin(), rule->contacts.end(),
                                            [](const Contact& contact) { return contact.place.has_value(); });
    if (!places) return nullptr;
    return std::make_shared<const std::vector<bool>>(piecesOnSurface(pieces_.tree, ofPart(track)->tree));
  }

  void add(const PlannedTrack& track, const std::vector<PhaseShare>& shares, double requiredMm, bool lookInside = true) {
    if (pieces_.tree.empty()) return;
    RoomObstacle obstacle{other_, way_, requiredMm, ofOther(track), otherIsB_, {}, plan_, piecesOn(track)};
    for (const PhaseShare& share : shares) {
      if (lookInside) markSwallowed(share, obstacle);
      addWindows(share, obstacle, 0);
    }
    if (!obstacle.spans.empty()) found_.obstacles.push_back(std::move(obstacle));
    while (!found_.swallowed.empty() && found_.swallowed.back().obstacle >= found_.obstacles.size()) {
      found_.swallowed.pop_back();
    }
  }

  /// Inside from the first instant on: what gets inside later crosses the surface.
  void markSwallowed(const PhaseShare& share, const RoomObstacle& obstacle) {
    const Solid& solid = subject_.geometry[other_.index]->solid;
    if (!solid.hasInside()) return;
    const double instant = share.phase.from + share.low * (share.phase.to - share.phase.from);
    for (const std::uint32_t piece : piecesInside(pieces_.tree, solid, X_OP(share.phase, share.low))) {
      if (!obstacle.only || (*obstacle.only)[piece])
        found_.swallowed.push_back({piece, found_.obstacles.size(), instant});
    }
  }

  /// The stretches in which the two whole parts are near enough to matter.
  void addWindows(const PhaseShare& share, RoomObstacle& obstacle, int depth) const {
    const auto& [phase, low, high] = share;
    const bool constant = phase.motion->isConstant();
    if (!phase.anyOrder) {
      const MotionAtInstant middle = obstacle.seenFromOther(phase.motion->at(0.5 * (low + high)));
      const MotionPiece piece{middle, constant ? 0 : 0.5 * (high - low), true};
      const double apartMm = wholeBoxesApart(obstacle.surface->tree, pieces_.tree, piece);
      if (apartMm >= obstacle.requiredMm + withinMm_) return;
      if (!constant && depth < kWindowDepth) {
        addWindows({phase, low, 0.5 * (low + high)}, obstacle, depth + 1);
        addWindows({phase, 0.5 * (low + high), high}, obstacle, depth + 1);
        return;
      }
    }
    std::vector<ObstacleSpan>& spans = obstacle.spans;
    const bool goesOn = !spans.empty() && spans.back().phase.motion == phase.motion && spans.back().high == low;
    if (goesOn) {
      spans.back().high = high;
    } else {
      spans.push_back({phase, low, high, nullptr, nullptr});
    }
  }

  const RoomSubject& subject_;
  const JudgedPieces& pieces_;
  PartId other_;
  std::uint32_t way_;
  double withinMm_;
  const WorkMonitor& monitor_;
  bool otherIsB_;
  double requiredMm_;
  std::shared_ptr<const PairPlan> plan_;
  PairObstacles found_;
};

/// Coaxial parts stay where they are as bodies of revolution.
void addRings(RoomObstacle& obstacle, const BoundingTree& pieces) {
  for (ObstacleSpan& span : obstacle.spans) {
    if (span.phase.motion->isConstant()) continue;
    const MotionAtInstant motion = obstacle.seenFromOther(span.phase.motion->at(0.5));
    const auto line = turningLine(motion);
    if (!line) continue;
    const Pose X_PO = motion.X_AB.inverse();
    if (!span.ringsOfOther) span.ringsOfOther = std::make_shared<const RevolvedTree>(obstacle.surface->tree, *line);
    span.ringsOfPart = std::make_shared<const RevolvedTree>(
        pieces, AxisLine{X_PO * line->point, X_PO.linear() * line->direction});
  }
}

bool isAllowed(const Assembly& assembly, PartId a, PartId b) {
  const PairRule* rule = assembly.ruleFor(a, b);
  return rule && rule->allowReason;
}

}  // namespace

std::vector<RoomObstacle> turnedWith(const BoundingTree& pieces, const std::vector<RoomObstacle>& obstacles) {
  std::vector<RoomObstacle> turned = obstacles;
  for (RoomObstacle& obstacle : turned) addRings(obstacle, pieces);
  return turned;
}

RoomObstacles obstaclesFor(const RoomSubject& subject, const JudgedPieces& pieces, double withinMm,
                           unsigned threads, const WorkMonitor& monitor) {
  std::vector<std::pair<PartId, std::uint32_t>> asked;
  for (std::uint32_t way = 0; way < subject.ways.size(); ++way) {
    for (PartId other; other.index < subject.geometry.size(); ++other.index) {
      const bool counts = other != subject.part && subject.geometry[other.index];
      if (counts && !isAllowed(subject.assembly, subject.part, other)) asked.emplace_back(other, way);
    }
  }
  std::vector<PairObstacles> read(asked.size());
  parallelFor(asked.size(), threads, [&](std::size_t i) {
    if (monitor.cancelled()) return;
    read[i] = PairReader(subject, pieces, asked[i].first, asked[i].second, withinMm, monitor).read();
    for (RoomObstacle& obstacle : read[i].obstacles) addRings(obstacle, pieces.tree);
  });
  RoomObstacles all;
  all.touched.assign(pieces.places.size(), false);
  for (PairObstacles& pair : read) {
    for (const std::uint32_t piece : pair.touched) all.touched[piece] = true;
    for (SwallowedPiece swallowed : pair.swallowed) {
      swallowed.obstacle += all.obstacles.size();
      all.swallowed.push_back(swallowed);
    }
    std::move(pair.obstacles.begin(), pair.obstacles.end(), std::back_inserter(all.obstacles));
  }
  return all;
}

}  // namespace swingroom
