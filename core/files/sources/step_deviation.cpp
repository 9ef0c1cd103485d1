#include "core/files/sources/step_deviation.h"

#include <algorithm>

#include "core/files/document/found_text.h"
#include "core/files/document/json_value.h"
#include "core/files/mesh_format.h"
#include "core/files/mesh_path.h"

namespace swingroom {
namespace {

/// Wherever the file is: its ending tells.
bool isFromStep(const DocumentPart& part) {
  return std::any_of(part.stages.begin(), part.stages.end(), [](const auto& stage) {
    return meshFormatOf(meshPathOf({}, stage.second).file) == MeshFormat::step;
  });
}

}  // namespace

void keepDeviation(double deviationMm, NewAssembly& made) {
  std::size_t count = 0;
  for (DocumentPart& part : made.document.parts) {
    if (!isFromStep(part)) continue;
    part.deviation = deviationMm;
    ++count;
  }
  if (count == 0) return;
  made.found.push_back(counted(count, "part") + " meshed from STEP surfaces, nowhere more than " +
                       numberText(deviationMm) + " mm from them (--deviation).");
}

}  // namespace swingroom
