#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "core/base/transform.h"
#include "core/base/work_monitor.h"
#include "core/proximity/solid.h"
#include "core/tree/bounding_tree.h"

namespace swingroom {

/// How a surface (frame F) stands in a solid's frame S over a span of time.
struct PlacedSpan {
  Pose X_SF_from, X_SF_middle, X_SF_to;
  double from = 0, to = 0;  ///< Instants.
  bool still = true;        ///< Nothing moves: the three poses are one.
};

/// The spans that a search may look at, and how the surface moves in them. `side` tells surfaces
/// that move differently apart; spans are the same for all.
class PlacedSpans {
 public:
  virtual ~PlacedSpans() = default;
  virtual const PlacedSpan& at(std::uint32_t span, int side) const = 0;
  /// The two halves of a span in which something moves. References from `at` stay valid.
  virtual std::array<std::uint32_t, 2> halvesOf(std::uint32_t span) = 0;
  /// How far a point within `radius` of `centre_S` at the span's middle gets from where it is then.
  virtual double travelMm(std::uint32_t span, int side, const Vector3d& centre_S,
                          double radius) const = 0;
  /// How far such a point gets from the straight and even way between its two ends.
  virtual double bendMm(std::uint32_t span, int side, const Vector3d& centre_S,
                        double radius) const = 0;
};

/// A surface that may reach into a solid.
struct Reaching {
  const BoundingTree* surface = nullptr;
  const Solid* solid = nullptr;
  int side = 0;  ///< Of the spans.
};

struct DeepestSearch {
  double accuracyMm = 0.005;  ///< Aim: the bracket is at most this wide.
  double fineMm = 0.005;      ///< Down to this while no more than `fineQueries` are made.
  double atLeastMm = 0;       ///< Depths up to this are of no interest.
  double enoughMm = 0;        ///< Above 0: the search may end once such a depth is found.
  /// The first of the places found is told that is at most this much less deep than the deepest.
  double plateauMm = 0;
  std::size_t mostQueries = 100'000;
  std::size_t fineQueries = 0;
  /// A bracket of at most this share of the depth is enough once so many queries are made.
  double shareOfDepth = 0;
  std::size_t shareQueries = 0;
  const WorkMonitor* monitor = nullptr;  ///< Once it is cancelled the search ends with what it has.
};

/// Where a surface reaches deepest into a solid: lower <= true greatest depth <= upper.
struct DeepestPlace {
  double depthMm = 0;  ///< Found at `point_S`; 0: nothing of interest was found.
  double upperMm = 0;  ///< Proven over all spans and surfaces.
  int side = 0;        ///< Of the surface that reaches there.
  double instant = 0;
  Pose X_SF = Pose::Identity();
  Vector3d point_S = Vector3d::Zero();
  Vector3d nearest_S = Vector3d::Zero();
  std::size_t queries = 0;
};

/// The greatest distance from a point of a surface inside its solid to the solid's boundary, over
/// all spans `first`. Branch and bound over pieces of surface and of time at once:
/// no distance changes faster than its point moves; and over a flat piece that moves evenly the
/// distance to a convex part of the boundary is convex, so that its corners at both ends bound it.
/// The same bytes whatever the machine. @throws nothing.
DeepestPlace deepestPlace(const std::vector<Reaching>& surfaces, PlacedSpans& spans,
                          const std::vector<std::uint32_t>& first, const DeepestSearch& search);

}  // namespace swingroom
