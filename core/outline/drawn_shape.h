#pragma once

#include <cstdint>
#include <vector>

#include "core/outline/coverage.h"

namespace swingroom {

/// A picture as it is compared: how dark each pixel is.
struct DrawnPicture {
  int width = 0, height = 0;
  /// 0 (paper) to 255 (ink), row by row from above; what is see-through counts as paper.
  std::vector<std::uint8_t> ink;
};

/// How a picture lies in a view.
struct DrawnPlace {
  Eigen::Vector2d middle = Eigen::Vector2d::Zero();  ///< mm to the right and up.
  double mmPerPixel = 1;
};

/// The shape that a picture shows: every pixel that paper cannot reach from the picture's rim over
/// pixels lighter than `threshold`. So a filled shape counts, and one of which only the closed
/// outline is drawn; what a rim of ink cuts off does too.
/// @param threshold  1 to 255.
std::vector<std::uint8_t> shapeOf(const DrawnPicture& picture, int threshold);

/// That shape on a grid: cells whose middle lies on one of its pixels.
/// @param shape  As `shapeOf` gives it, of the picture's size.
Coverage shapeOn(const DrawnPicture& picture, const std::vector<std::uint8_t>& shape,
                 const DrawnPlace& place, const CoverageGrid& grid);

/// What the shape's pixels span in the view; empty: there is no shape.
Eigen::AlignedBox2d boxOf(const DrawnPicture& picture, const std::vector<std::uint8_t>& shape,
                          const DrawnPlace& place);

/// Darkness halfway between the two groups that the pixels fall into best (Otsu, "A threshold
/// selection method from gray-level histograms", IEEE Trans. SMC 9(1), 1979); 128 if all are alike.
int likelyThreshold(const DrawnPicture& picture);

}  // namespace swingroom
