#include "core/room/room_map.h"

#include <stdexcept>

#include "core/room/room_engine.h"

namespace swingroom {

RoomMap roomMap(const RoomSubject& subject, const RoomSettings& settings, WorkMonitor& monitor,
                const std::function<void(const RoomMap&)>& onStage) {
  if (!subject.geometry.at(subject.part.index)) throw std::invalid_argument("roomMap: the part has no mesh");
  if (!(settings.resolutionMm > 0) || !(settings.capMm > 0) || !(settings.pieceMm >= 0)) {
    throw std::invalid_argument("roomMap: a setting is not above 0");
  }
  RoomMap map;
  map.part = subject.part;
  map.capMm = settings.capMm;
  RoomEngine engine(subject, settings, monitor);
  const std::vector<double> stages = stagesTo(settings.resolutionMm);
  monitor.start(stages.size() * engine.groups());
  for (const double stage : stages) {
    if (monitor.cancelled() || !engine.refine(stage, monitor)) return map;
    map = engine.map();
    map.done = stage == stages.back();
    if (onStage) onStage(map);
  }
  return map;
}

}  // namespace swingroom
