#pragma once

#include "core/picture/raster.h"

namespace swingroom {

/// How dark a line is at each sample, 0 none to 1: outlines between shapes and where one part of a
/// shape stands before another, and finer lines where a surface turns by more than kCreaseDeg.
std::vector<float> lineStrengths(const Layer& layer, const SeenSurface& surface,
                                 const std::vector<PictureShape>& shapes, const SampleRows& rows,
                                 double pixelsPerMm);

}  // namespace swingroom
