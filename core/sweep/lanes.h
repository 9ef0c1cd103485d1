#pragma once

#include <cmath>
#include <cstddef>

#include "core/sweep/box_lanes.h"

/// Numbers four at a time, for box_lanes.cpp alone. Vectors of the compiler's own: the same source for every
/// instruction set, lane by lane the same bytes. Everything is inlined into a caller that may use wide registers;
/// lanes are set through references, since vectors as results have no fixed calling convention.
#define SWINGROOM_LANES __attribute__((always_inline)) inline

namespace swingroom::lanes {

typedef double Lane __attribute__((vector_size(8 * kLanes)));
typedef long long Mask __attribute__((vector_size(8 * kLanes)));

struct Lane3 {
  Lane x, y, z;
};

SWINGROOM_LANES void spread(Lane& to, double value) { to = Lane{value, value, value, value}; }
SWINGROOM_LANES void spread(Lane3& to, const double* v) {
  spread(to.x, v[0]);
  spread(to.y, v[1]);
  spread(to.z, v[2]);
}
SWINGROOM_LANES void load(Lane& to, const double* from) { __builtin_memcpy(&to, from, sizeof(Lane)); }
SWINGROOM_LANES void store(const Lane& from, double* to) { __builtin_memcpy(to, &from, sizeof(Lane)); }

SWINGROOM_LANES void dot(Lane& to, const Lane3& a, const Lane3& b) { to = a.x * b.x + a.y * b.y + a.z * b.z; }
SWINGROOM_LANES void cross(Lane3& to, const Lane3& a, const Lane3& b) {
  to = {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
SWINGROOM_LANES void absolute(Lane& to, const Lane& v) { to = v < 0 ? -v : v; }
SWINGROOM_LANES void positive(Lane& to, const Lane& v) { to = v > 0 ? v : v - v; }
SWINGROOM_LANES void larger(Lane& to, const Lane& v) { to = v > to ? v : to; }
SWINGROOM_LANES void smaller(Lane& to, const Lane& v) { to = v < to ? v : to; }
SWINGROOM_LANES void root(Lane& to, const Lane& v) {
  for (std::size_t i = 0; i < kLanes; ++i) to[i] = std::sqrt(v[i]);
}
SWINGROOM_LANES bool any(const Mask& mask) { return (mask[0] | mask[1] | mask[2] | mask[3]) != 0; }

/// R * v for a matrix by column.
SWINGROOM_LANES void turn(Lane3& to, const double* R, const Lane3& v) {
  to = {R[0] * v.x + R[3] * v.y + R[6] * v.z, R[1] * v.x + R[4] * v.y + R[7] * v.z,
        R[2] * v.x + R[5] * v.y + R[8] * v.z};
}

/// Rows of four numbers, one a lane, to four lanes.
SWINGROOM_LANES void transpose(Lane& a, Lane& b, Lane& c, Lane& d) {
  const Lane ab0 = __builtin_shuffle(a, b, Mask{0, 4, 2, 6}), ab1 = __builtin_shuffle(a, b, Mask{1, 5, 3, 7});
  const Lane cd0 = __builtin_shuffle(c, d, Mask{0, 4, 2, 6}), cd1 = __builtin_shuffle(c, d, Mask{1, 5, 3, 7});
  a = __builtin_shuffle(ab0, cd0, Mask{0, 1, 4, 5});
  b = __builtin_shuffle(ab1, cd1, Mask{0, 1, 4, 5});
  c = __builtin_shuffle(ab0, cd0, Mask{2, 3, 6, 7});
  d = __builtin_shuffle(ab1, cd1, Mask{2, 3, 6, 7});
}
/// Four numbers of each node, from the one at `offset` on.
SWINGROOM_LANES void gatherRows(const std::array<const BoundingTree::Node*, kLanes>& nodes, std::size_t offset, Lane& a, Lane& b, Lane& c,
                   Lane& d) {
  load(a, reinterpret_cast<const double*>(nodes[0]) + offset);
  load(b, reinterpret_cast<const double*>(nodes[1]) + offset);
  load(c, reinterpret_cast<const double*>(nodes[2]) + offset);
  load(d, reinterpret_cast<const double*>(nodes[3]) + offset);
  transpose(a, b, c, d);
}

}  // namespace swingroom::lanes
