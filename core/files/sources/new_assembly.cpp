#include "core/files/sources/new_assembly.h"

#include "core/files/document/found_text.h"
#include "core/files/document/moved_document.h"
#include "core/files/document/read_document.h"
#include "core/files/sources/new_from_parts.h"
#include "core/files/sources/source_kind.h"
#include "core/files/sources/step_deviation.h"
#include "core/files/urdf/new_robot.h"

namespace swingroom {
namespace {

/// The same assembly, its paths as they are right from the new place.
Outcome<NewAssembly> newFromAssembly(const NewAssemblyWish& wish) {
  Outcome<ReadDocument> read = readDocument(wish.source);
  if (!read) return read.problems();
  NewAssembly made;
  made.document =
      movedDocument(std::move(read->document), std::filesystem::absolute(wish.source).parent_path(),
                    std::filesystem::absolute(wish.file).parent_path());
  made.found = {counted(made.document.parts.size(), "part") + " as in " + wish.source.string() +
                "."};
  made.notes = read->notes;
  return made;
}

}  // namespace

namespace {

Outcome<NewAssembly> ofItsKind(const NewAssemblyWish& wish, const MeshReader& reader) {
  const Outcome<SourceKind> kind = sourceKindOf(wish.source);
  if (!kind) return kind.problems();
  switch (*kind) {
    case SourceKind::assembly:
      return newFromAssembly(wish);
    case SourceKind::folder:
    case SourceKind::scene:
      return newFromParts(wish, reader);
    case SourceKind::robot:
      return newRobot(wish, reader);
  }
  return Problem{wish.source.string(), "is of no kind that is read", ""};
}

}  // namespace

Outcome<NewAssembly> newAssembly(const NewAssemblyWish& wish, const MeshReader& reader) {
  Outcome<NewAssembly> made = ofItsKind(wish, reader.withDeviation(wish.deviationMm));
  if (made) keepDeviation(wish.deviationMm, *made);
  return made;
}

}  // namespace swingroom
