#include "core/room/room_engine.h"

#include <algorithm>

#include "core/room/room_search.h"

namespace swingroom {
namespace {

constexpr double kCoarsestMm = 1;
/// A gap this little under the required one counts as meeting it, as for the check (`kSlackMm`).
constexpr double kMeetsMm = kSlackMm;

}  // namespace

std::vector<double> stagesTo(double resolutionMm) {
  std::vector<double> stages;
  for (double stage = kCoarsestMm; stage > 2 * resolutionMm; stage = stages.size() % 2 ? stage * 0.3 : stage / 3) {
    stages.push_back(stage);
  }
  stages.push_back(resolutionMm);
  return stages;
}

RoomEngine::RoomEngine(const RoomSubject& subject, const RoomSettings& settings, const WorkMonitor& monitor)
    : part_(subject.part),
      settings_(settings),
      pieces_(piecesOf(subject.assembly, subject.part, settings.pieceMm)),
      judged_(pieces_),
      obstacles_(obstaclesFor(subject, judged_, settings.capMm, settings.threads, monitor)),
      field_(judged_.tree, settings.capMm),
      groups_(searchGroups(judged_.tree)) {
  for (std::uint32_t i = 0; i < obstacles_.touched.size(); ++i) {
    if (obstacles_.touched[i]) field_.leaveOut(i);
  }
  for (const SwallowedPiece& swallowed : obstacles_.swallowed) {
    const double requiredMm = obstacles_.obstacles[swallowed.obstacle].requiredMm;
    field_.boundPiece(swallowed.piece, -requiredMm - kMeetsMm,
                      {static_cast<std::uint32_t>(swallowed.obstacle), swallowed.instant}, false);
  }
  field_.setTops(groups_);
}

bool RoomEngine::refine(double resolutionMm, WorkMonitor& monitor) {
  field_.startStage(resolutionMm);
  std::vector<std::uint64_t> tests(groups_.size());
  parallelFor(groups_.size(), settings_.threads, [&](std::size_t i) {
    if (monitor.cancelled()) return;
    RoomSearch search(judged_.tree, obstacles_.obstacles, field_, resolutionMm, monitor);
    search.run(groups_[i]);
    tests[i] = search.tests();
    if (!monitor.cancelled()) monitor.advance();
  });
  if (monitor.cancelled()) return false;
  for (const std::uint64_t count : tests) tests_ += count;
  field_.finishStage();
  reachedMm_ = resolutionMm;
  return true;
}

void RoomEngine::tellRoom(RoomPlace& place, std::uint32_t piece) const {
  const RoomField::Bounds& known = field_.ofPiece(piece);
  place.upperMm = std::clamp(known.upperMm, 0.0, settings_.capMm);
  place.lowerMm = std::clamp(known.lowerMm, 0.0, place.upperMm);
  if (known.upperMm < -kMeetsMm) place.state = RoomState::none;
  if (known.upperMm >= settings_.capMm) {
    place.state = RoomState::capped;
  } else if (known.source.obstacle != RoomSource::kNone) {
    const RoomObstacle& obstacle = obstacles_.obstacles[known.source.obstacle];
    place.stop = RoomPlace::Stop{obstacle.part, obstacle.way, known.source.instant};
  }
}

RoomMap RoomEngine::map() const {
  RoomMap map;
  map.part = part_;
  map.capMm = settings_.capMm;
  map.resolutionMm = reachedMm_;
  map.places.resize(pieces_.size());
  for (std::size_t i = 0; i < pieces_.size(); ++i) {
    map.places[i].corners_P = pieces_[i].corners_P;
    map.places[i].triangle = pieces_[i].triangle;
    if (pieces_[i].inZone) map.places[i].state = RoomState::zone;
  }
  for (std::uint32_t i = 0; i < judged_.places.size(); ++i) {
    RoomPlace& place = map.places[judged_.places[i]];
    if (obstacles_.touched[i]) {
      place.state = RoomState::contact;
    } else {
      tellRoom(place, i);
    }
  }
  return map;
}

}  // namespace swingroom
