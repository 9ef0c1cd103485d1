#pragma once

#include <cstddef>
#include <vector>

namespace swingroom {

/// A rectangle to be put on a bed, mm.
struct LoadPiece {
  double widthMm = 0, depthMm = 0;
};

/// Where a piece lies. Its corner nearest to the bed's origin; turned by a quarter: width and depth
/// are exchanged.
struct LoadPlace {
  std::size_t load = 0;
  double xMm = 0, yMm = 0;
  bool turned = false;

  bool operator==(const LoadPlace&) const = default;
};

struct LoadSettings {
  double spacingMm = 5;  ///< Between two pieces.
  double marginMm = 5;   ///< To the bed's edges.
};

/// Puts each piece on the first bed that has room, largest first; of the free rectangles of a bed
/// into the one where least is left on the shorter side (maximal rectangles: Jylanki, A Thousand
/// Ways to Pack the Bin, 2010). No promise that fewer beds would not do. A piece that only fits
/// without the margin lies alone, in the middle.
/// @returns By piece. @throws std::invalid_argument if one does not fit even so.
std::vector<LoadPlace> packLoads(const std::vector<LoadPiece>& pieces, double bedWidthMm,
                                 double bedDepthMm, const LoadSettings& settings);

}  // namespace swingroom
