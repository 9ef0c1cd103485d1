#pragma once

#include <cstdint>
#include <vector>

#include "app/viewport/view_camera.h"
#include "app/viewport/view_mesh.h"

namespace swingroom {

/// Pixels behind which a point lies in both of two parts, wherever along the ray: also what is
/// hidden.
struct OverlapMask {
  /// Distances in `edge` are cut off here, pixels.
  static constexpr double kReachPixels = 6;

  int left = 0, top = 0;      ///< Pixel of the first sample's corner.
  int columns = 0, rows = 0;  ///< 0: nothing overlaps.
  int pixelsASample = 1;
  /// Distance to the outline, rows from the top: 128 on it, more inside, 127 / kReachPixels a
  /// pixel.
  std::vector<std::uint8_t> edge;

  bool empty() const { return edge.empty(); }
  bool inside(int column, int row) const {
    return edge[static_cast<std::size_t>(row * columns + column)] > 128;
  }
};

/// @param pixelsASample  1: as fine as the display; 2: a quarter of the work.
/// Exact but for the sampling; touch (1e-4 mm) is no overlap. A ray that enters a surface more or
/// less often than it leaves says nothing: there the surface is not closed. Cost: some 10 ns for
/// each sample and surface behind it, in the rectangle where both parts' boxes are seen to overlap.
OverlapMask overlapMask(const ViewMesh& a, const Pose& X_WA, const ViewMesh& b, const Pose& X_WB,
                        const ViewProjection& projection, int pixelsASample);

}  // namespace swingroom
