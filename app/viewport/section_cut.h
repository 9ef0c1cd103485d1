#pragma once

#include <array>
#include <vector>

#include "app/viewport/view_scene.h"

namespace swingroom {

/// Where a plane cuts one placed surface.
struct SectionCut {
  /// Line by line as triangle by triangle is cut, in no order; all have the body on the same hand.
  std::vector<std::array<Vector3d, 2>> lines_W;
  Eigen::AlignedBox2d extent;  ///< In the plane: along `across_W` and `along_W`, mm.
  bool closed = false;         ///< The lines are the rims of areas, which can be filled.
};

/// Any surface, open and damaged ones too. Cost: that of the triangles near the plane.
SectionCut sectionCut(const BoundingTree& tree, const Pose& X_WP, const ViewSection& section);

/// On which side of the plane a placed box lies.
enum class SectionSide { kept, cut, gone };
SectionSide sideOf(const BoundingTree::Node& box, const Pose& X_WP, const ViewSection& section);

/// A hatching for each part so that parts whose boxes meet have different ones, as far as there are
/// enough: even ones rise to the right, odd ones to the left.
constexpr int kHatchings = 6;
/// @param boxes  Empty boxes meet nothing.
std::vector<int> hatchingsFor(const std::vector<Eigen::AlignedBox3d>& boxes);

}  // namespace swingroom
