#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "core/motion/relative_motion.h"
#include "core/tree/bounding_tree.h"

namespace swingroom {

/// A line, in some frame.
struct AxisLine {
  Eigen::Vector3d point, direction;  ///< Unit.
};

/// Off each other by no more than 1e-9 mm within 100 mm of their points, and in one direction.
bool sameLine(const AxisLine& a, const AxisLine& b);

/// The one line, in A's frame, about which B turns and turns only during a motion: one hinge, or several about the
/// same line (within 1e-9 mm over 100 mm). None if there is no such line.
std::optional<AxisLine> turningLine(const MotionAtInstant& motion);

/// What a surface sweeps when it is turned once round a line, by the nodes of its tree: a ring of
/// radii and heights, mm. Two rings keep their distance however the surfaces turn about the line.
class RevolvedTree {
 public:
  RevolvedTree(const BoundingTree& tree, const AxisLine& line);

  struct Ring {
    double rLow = 0, rHigh = 0;  ///< Distance from the line.
    double zLow = 0, zHigh = 0;  ///< Along it, from its point.
  };
  const Ring& ofNode(std::size_t node) const { return nodes_[node]; }

 private:
  void fit(const BoundingTree& tree, std::size_t node, const std::vector<Ring>& triangles);

  std::vector<Ring> nodes_;
};

/// Least distance of two rings about one line, mm.
double ringGapMm(const RevolvedTree::Ring& a, const RevolvedTree::Ring& b);

}  // namespace swingroom
