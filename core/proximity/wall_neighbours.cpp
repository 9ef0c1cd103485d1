#include "core/proximity/wall_neighbours.h"

#include <algorithm>
#include <bit>

namespace swingroom {
namespace {

constexpr std::uint32_t kFree = 0xffffffff;

std::uint64_t mixed(std::uint64_t key) {
  key ^= key >> 32;
  key *= 0x9e3779b97f4a7c15ull;
  return key ^ (key >> 29);
}

/// Slots for `count` keys, at most half full; a power of two.
std::vector<std::uint32_t> slotsFor(std::size_t count) {
  return std::vector<std::uint32_t>(std::bit_ceil(2 * count + 2), kFree);
}

/// The slot that holds an equal key, or the free one for it.
template <typename IsEqual>
std::uint32_t& slotOf(std::vector<std::uint32_t>& slots, std::uint64_t hash,
                      const IsEqual& isEqual) {
  std::size_t at = hash & (slots.size() - 1);
  while (slots[at] != kFree && !isEqual(slots[at])) at = (at + 1) & (slots.size() - 1);
  return slots[at];
}

/// For each corner the first one at the same place. 3 t + c is corner c of triangle t.
std::vector<std::uint32_t> firstAtPlace(const std::vector<TriangleCorners>& triangles) {
  const auto place = [&](std::uint32_t i) -> const Eigen::Vector3d& {
    return triangles[i / 3][i % 3];
  };
  std::vector<std::uint32_t> firsts(3 * triangles.size());
  std::vector<std::uint32_t> slots = slotsFor(firsts.size());
  for (std::uint32_t i = 0; i < firsts.size(); ++i) {
    const Eigen::Vector3d& p = place(i);
    std::uint64_t hash = 0;
    for (int x = 0; x < 3; ++x) {
      hash = mixed(hash + std::bit_cast<std::uint64_t>(p[x] + 0.0));  // -0 is 0.
    }
    std::uint32_t& slot =
        slotOf(slots, hash, [&](std::uint32_t other) { return place(other) == p; });
    if (slot == kFree) slot = i;
    firsts[i] = slot;
  }
  return firsts;
}

}  // namespace

WallNeighbours::WallNeighbours(const BoundingTree& surface) {
  const auto& triangles = surface.triangles();
  neighbours_.resize(triangles.size());
  const std::vector<std::uint32_t> firsts = firstAtPlace(triangles);
  const auto endsOf = [&](std::uint32_t edge) {
    const std::uint32_t a = firsts[edge], b = firsts[edge % 3 == 2 ? edge - 2 : edge + 1];
    return std::uint64_t{std::min(a, b)} << 32 | std::max(a, b);
  };
  // An edge is known by the corner where it starts.
  std::vector<std::uint32_t> slots = slotsFor(firsts.size());
  for (std::uint32_t edge = 0; edge < firsts.size(); ++edge) {
    const std::uint64_t ends = endsOf(edge);
    std::uint32_t& slot = slotOf(slots, mixed(mixed(ends)),
                                 [&](std::uint32_t other) { return endsOf(other) == ends; });
    if (slot == kFree) slot = edge;
    const std::uint32_t other = slot;
    // Of three and more at one edge any two will do.
    if (other / 3 == edge / 3 || neighbours_[other / 3][other % 3].triangle != kNone) continue;
    neighbours_[edge / 3][edge % 3] = {other / 3, (other % 3 + 2) % 3};
    neighbours_[other / 3][other % 3] = {edge / 3, (edge % 3 + 2) % 3};
  }
}

double WallNeighbours::hollowMm(const TriangleCorners& triangle, std::size_t corner,
                                const TriangleCorners& neighbour, std::size_t apex) {
  return closestBetweenSegments(triangle[corner], triangle[(corner + 1) % 3],
                                triangle[(corner + 2) % 3], neighbour[apex])
      .distanceMm;
}

}  // namespace swingroom
