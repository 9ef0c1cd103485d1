#include "core/files/new_assembly.h"

#include "core/files/new_from_parts.h"
#include "core/files/source_kind.h"
#include "core/files/urdf/new_robot.h"

namespace swingroom {

Outcome<NewAssembly> newAssembly(const NewAssemblyWish& wish, const MeshReader& reader) {
  const Outcome<SourceKind> kind = sourceKindOf(wish.source);
  if (!kind) return kind.problems();
  switch (*kind) {
    case SourceKind::folder:
    case SourceKind::scene:
      return newFromParts(wish, reader);
    case SourceKind::robot:
      return newRobot(wish, reader);
  }
  return Problem{wish.source.string(), "is of no kind that is read", ""};
}

}  // namespace swingroom
