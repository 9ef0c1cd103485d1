#include "core/room/space/room_space.h"

namespace swingroom {

// A stub: nothing is worked out yet.
Outcome<SpaceMesh> roomSpace(const SpaceSubject& subject, const SpaceSettings&, WorkMonitor&) {
  return Problem{subject.assembly.part(subject.part).name, "its room is not worked out yet", ""};
}

Outcome<SpaceMesh> sweptSpace(const SpaceSubject& subject, std::optional<PartId>, const SpaceSettings&,
                              WorkMonitor&) {
  return Problem{subject.assembly.part(subject.part).name, "what it sweeps is not worked out yet", ""};
}

}  // namespace swingroom
