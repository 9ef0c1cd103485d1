#include "tests/benchmarks/viewport_scene.h"

#include <algorithm>
#include <stdexcept>

#include "core/base/parallel.h"
#include "core/files/document/read_document.h"
#include "core/report/part_colour.h"

namespace swingroom {

std::vector<Pose> ViewedAssembly::posesAt(double instant) const {
  return posesOf(loaded.assembly,
                 configurationAt(loaded.assembly, loaded.sequences.at(0), instant));
}

ViewedAssembly viewedAssembly(const std::filesystem::path& file) {
  auto loaded = loadAssembly(file, MeshReader::besideThisProgram(), defaultThreads());
  const auto read = readDocument(file);
  if (!loaded) throw std::runtime_error(toText(loaded.problems().front()));
  if (!read) throw std::runtime_error(toText(read.problems().front()));
  const AssemblyDocument& document = read.value().document;
  ViewedAssembly viewed{std::move(*loaded), {}, {}};
  viewed.geometry = prepareGeometry(viewed.loaded.assembly, defaultThreads());
  const std::vector<Pose> poses =
      posesOf(viewed.loaded.assembly, viewed.loaded.modes.at(0).configuration);
  viewed.scene.up = Vector3d(document.up[0], document.up[1], document.up[2]);
  viewed.scene.front = Vector3d(document.front[0], document.front[1], document.front[2]);
  double lowest = 1e9;
  for (std::size_t i = 0; i < viewed.geometry.size(); ++i) {
    ViewPart part;
    if (viewed.geometry[i]) part.surface = viewed.geometry[i]->surface;
    part.colour = partColour(document.parts.at(i).colour);
    part.clear = document.parts[i].clear.value_or(false);
    viewed.scene.parts.push_back(part);
    if (!part.surface) continue;
    for (const Vector3d& v : part.surface->mesh->vertices)
      lowest = std::min(lowest, viewed.scene.up.dot(poses[i] * v));
  }
  viewed.scene.floorMm = lowest;
  return viewed;
}

}  // namespace swingroom
