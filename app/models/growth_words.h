#pragma once

#include <QString>
#include <vector>

#include "app/session/scene.h"
#include "core/room/growth.h"

/// What the window says of how far a part may grow. Figures are proven ones and rounded down.
namespace swingroom {

/// A point that a part may grow about, in its frame.
struct GrowthCentre {
  QString name;  ///< "its ball joint neck", "its middle"
  Vector3d p_P = Vector3d::Zero();

  bool operator==(const GrowthCentre&) const = default;
};
/// Its ball joints first, then its hinges, each where it is; its middle last. A part with a mesh.
std::vector<GrowthCentre> growthCentres(const Scene& scene, PartId part);

/// "× 1.083", "× 2.000 or more", "not at all".
QString scaleFigure(const GrowthLimit& limit, double mostScale);
/// "0.21 mm", "5.00 mm or more", "not at all".
QString offsetFigure(const GrowthLimit& limit, double mostMm);
/// "stopped by collar, step 2 legs down, instant 0.3412"; empty: by nothing that was looked at.
QString growthStop(const Scene& scene, const GrowthLimit& limit);

}  // namespace swingroom
