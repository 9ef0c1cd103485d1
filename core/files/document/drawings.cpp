#include "core/files/document/drawings.h"

#include <set>

#include "core/files/document/json_value.h"

namespace swingroom {

void checkDrawings(const AssemblyDocument& document, const NameIndex& modes,
                   DocumentProblems& problems) {
  std::set<StandardView> taken;
  for (std::size_t i = 0; i < document.drawings.size(); ++i) {
    const DocumentDrawing& drawing = document.drawings[i];
    const std::string at = pointerTo("/drawings", i);
    const auto share = [&](const char* key, double value) {
      if (value < 0 || value > 1) problems.mistake(pointerTo(at, key), "must be from 0 to 1");
    };
    if (!taken.insert(drawing.view).second && !problems.anyIn(pointerTo(at, "view"))) {
      problems.mistake(pointerTo(at, "view"), "has a drawing already", "keep one a view");
    }
    if (drawing.picture.empty()) problems.mistake(pointerTo(at, "picture"), "is empty");
    if (drawing.mmPerPixel <= 0) problems.mistake(pointerTo(at, "mmPerPixel"), "must be above 0");
    share("opacity", drawing.opacity);
    if (drawing.threshold) share("threshold", *drawing.threshold);
    if (drawing.mode) modes.find(*drawing.mode, pointerTo(at, "mode"), problems);
  }
}

}  // namespace swingroom
