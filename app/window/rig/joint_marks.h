#pragma once

#include <vector>

#include "app/session/choice.h"
#include "app/session/scene.h"
#include "app/viewport/view_scene.h"

namespace swingroom {

/// Axes and zones of the joints at the chosen parts, where they stand now.
struct JointMarks {
  std::vector<ViewAxis> axes;
  std::vector<ViewZone> zones;
};

/// @param parts  The joints that hold these, and no others.
JointMarks jointMarks(const Scene& scene, const Configuration& standing,
                      const std::vector<PartId>& parts);

}  // namespace swingroom
