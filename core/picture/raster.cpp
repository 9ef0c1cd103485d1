#include "core/picture/raster.h"

#include <limits>

namespace swingroom {

Layer nearestLayer(const SeenSurface& surface, const std::vector<PictureShape>& shapes, bool clear,
                   const SampleRows& rows, double pixelsPerMm) {
  Layer layer;
  layer.depths.assign(rows.size(), std::numeric_limits<double>::infinity());
  layer.triangles.assign(rows.size(), Layer::kNothing);
  // Faces that lie on each other differ by rounding only: without this they would show as noise.
  const double sameMm = 1e-3 / pixelsPerMm;
  for (std::size_t shape = 0; shape < shapes.size(); ++shape) {
    if (shapes[shape].clear != clear) continue;
    for (std::size_t i = surface.firsts[shape]; i < surface.firsts[shape + 1]; ++i) {
      forEachCovered(surface.triangles[i], rows, [&](const Covered& covered) {
        if (!(covered.depth < layer.depths[covered.index] - sameMm)) return;
        layer.depths[covered.index] = covered.depth;
        layer.triangles[covered.index] = static_cast<std::uint32_t>(i);
      });
    }
  }
  return layer;
}

}  // namespace swingroom
