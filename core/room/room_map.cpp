#include "core/room/room_map.h"

#include <stdexcept>

namespace swingroom {

/// STUB, to be replaced: one place a triangle, nothing proven, nothing found.
RoomMap roomMap(const RoomSubject& subject, const RoomSettings& settings, WorkMonitor&,
                const std::function<void(const RoomMap&)>& onStage) {
  const auto& geometry = subject.geometry.at(subject.part.index);
  if (!geometry) throw std::invalid_argument("roomMap: the part has no mesh");
  RoomMap map;
  map.part = subject.part;
  map.capMm = settings.capMm;
  const TriangleMesh& mesh = *geometry->surface->mesh;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    RoomPlace place;
    place.corners_P = {mesh.corner(t, 0), mesh.corner(t, 1), mesh.corner(t, 2)};
    place.triangle = static_cast<std::uint32_t>(t);
    place.upperMm = settings.capMm;
    map.places.push_back(place);
  }
  if (onStage) onStage(map);
  return map;
}

}  // namespace swingroom
