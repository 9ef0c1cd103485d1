#pragma once

#include "core/picture/colour.h"
#include "core/picture/raster.h"

namespace swingroom {

/// At each sample: does the ray pass through the common volume of shapes `a` and `b`? Whichever way
/// their surfaces are turned. A ray that leaves a surface more or less often than it enters says
/// nothing: there the surface is not closed.
std::vector<std::uint8_t> overlapMask(const Surface& surface, std::size_t a, std::size_t b,
                                      const SampleRows& rows);

/// Lays hatching, with an outline and a pale rim round it, over `under` at a sample.
Paint hatched(const Paint& under, const std::vector<std::uint8_t>& mask, const SampleRows& rows,
              int row, int column);

}  // namespace swingroom
