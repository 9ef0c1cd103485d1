#pragma once

#include "core/picture/colour.h"
#include "core/picture/raster.h"

namespace swingroom {

/// Samples whose rays pass through the common volume of two shapes, whichever way their surfaces
/// are turned, and how they are hatched. A ray that leaves a surface more or less often than it
/// enters says nothing: there the surface is not closed.
class SeenOverlap {
 public:
  SeenOverlap(const SeenSurface& surface, std::size_t a, std::size_t b, const SampleRows& rows);

  /// Whether nothing is hatched in the square of samples from (row, column) of `side` or beside it.
  bool isFarFrom(int row, int column, int side) const;
  /// `under` with hatching, its outline and a pale rim round it.
  Paint over(const Paint& under, int row, int column) const;

 private:
  bool inside(int row, int column) const;
  bool anyWithin(int row, int column, int radius, bool wanted) const;

  SampleRows rows_;
  std::vector<std::uint8_t> mask_;
  int top_ = 0, bottom_ = -1, left_ = 0, right_ = -1;  ///< What is hatched lies within.
};

}  // namespace swingroom
