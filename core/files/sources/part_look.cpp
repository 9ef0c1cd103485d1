#include "core/files/sources/part_look.h"

#include "core/base/parallel.h"
#include "core/files/document/inferred_document.h"
#include "core/files/sources/new_from_parts.h"
#include "core/mesh/health.h"

namespace swingroom {
namespace {

PartLook lookAt(const GivenPart& part, const DocumentPart& written) {
  const TriangleMesh& mesh = part.mesh.mesh;
  const MeshHealth health = examine(mesh);
  PartLook look;
  look.name = part.name;
  look.colour = written.colour;
  look.sizes_mm = boundsOf(mesh).sizes();
  look.triangles = mesh.triangles.size();
  look.closed = health.closed();
  look.openEdges = health.openEdges;
  look.notes = healthNotes(mesh, health);
  look.unitAssumed = part.mesh.unitAssumed;
  return look;
}

}  // namespace

Outcome<PartsLook> lookAtParts(const std::filesystem::path& source, const MeshReader& reader,
                               unsigned threads, const PartChoice& choice) {
  Outcome<GivenParts> given = readGivenParts(source, reader, threads, choice);
  if (!given) return given.problems();
  PartsLook look;
  look.unit = takeUnit(*given, std::nullopt);
  const std::vector<DocumentPart> written = documentParts(*given, source / "look.swing.json");
  look.parts.resize(given->parts.size());
  parallelFor(given->parts.size(), threads, [&](std::size_t i) {
    if (!isCancelled(choice.monitor)) look.parts[i] = lookAt(given->parts[i], written[i]);
  });
  Eigen::AlignedBox3d box;
  for (const GivenPart& part : given->parts) box.extend(boundsOf(part.mesh.mesh));
  if (!box.isEmpty()) look.sizes_mm = box.sizes();
  for (const PartOff& off : look.unit.off) {
    look.parts[off.part].notes.push_back(off.factor > 1 ? "it seems 1000 times too small"
                                                        : "it seems 1000 times too large");
  }
  return look;
}

}  // namespace swingroom
