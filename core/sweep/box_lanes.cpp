#include "core/sweep/box_lanes.h"

#include <cstddef>

#include "core/sweep/lanes.h"

// The compiler loses sight of lanes that are set through references.
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wmaybe-uninitialized"

namespace swingroom {
namespace {

using Node = BoundingTree::Node;
using namespace lanes;

/// Boxes lane by lane.
struct Boxes {
  Lane3 centre;
  Lane radius;
  Lane half[3];
  Lane3 axes[3];
};

SWINGROOM_LANES void gather(Boxes& boxes, const std::array<const Node*, kLanes>& nodes) {
  static_assert(sizeof(Node) == 17 * sizeof(double) && offsetof(Node, half) == 4 * sizeof(double) &&
                offsetof(Node, axes) == 8 * sizeof(double));
  Lane ignored;
  gatherRows(nodes, 0, boxes.centre.x, boxes.centre.y, boxes.centre.z, boxes.radius);
  gatherRows(nodes, 4, boxes.half[0], boxes.half[1], boxes.half[2], ignored);
  gatherRows(nodes, 8, boxes.axes[0].x, boxes.axes[0].y, boxes.axes[0].z, boxes.axes[1].x);
  gatherRows(nodes, 12, boxes.axes[1].y, boxes.axes[1].z, boxes.axes[2].x, boxes.axes[2].y);
  boxes.axes[2].z = Lane{nodes[0]->axes(2, 2), nodes[1]->axes(2, 2), nodes[2]->axes(2, 2), nodes[3]->axes(2, 2)};
}

/// Greatest distances from the axis of a single hinge. Not asked for otherwise.
SWINGROOM_LANES void farthestFromAxis(Lane& to, const LaneMotion& motion, const Lane3& centre, const Lane& radius) {
  spread(to, 0);
  if (motion.restForEachMm == 0) return;
  Lane3 point, direction, across;
  spread(point, motion.axes[0].point);
  spread(direction, motion.axes[0].direction);
  const Lane3 arm{centre.x - point.x, centre.y - point.y, centre.z - point.z};
  cross(across, arm, direction);
  Lane squared;
  dot(squared, across, across);
  root(to, squared);
  to += radius;
}

/// Third-order bound along the unit direction n. All change is across the turning axes.
SWINGROOM_LANES void restAlong(Lane& to, const LaneMotion& motion, const Lane& fromAxis, const Lane3& n) {
  constexpr std::size_t kFew = 2;
  spread(to, motion.restMm);
  if (motion.axes.size() > kFew) return;
  spread(to, 0);
  for (const LaneMotion::Axis& axis : motion.axes) {
    Lane3 direction, across;
    spread(direction, axis.direction);
    cross(across, n, direction);
    Lane squared, share;
    dot(squared, across, across);
    root(share, squared);
    share += axis.turnedBeforeRad;
    share = share < 1 ? share : share - share + 1;
    Lane rest;
    spread(rest, axis.restMm);
    if (motion.restForEachMm > 0) smaller(rest, motion.restForEachMm * fromAxis);
    to += rest * share;
  }
}

/// An affine field's part along n: along + x.across.
SWINGROOM_LANES void project(Lane& along, Lane3& across, const double* linear, const double* byPlace, const Lane3& n) {
  Lane3 constant;
  spread(constant, linear);
  dot(along, n, constant);
  across = {byPlace[0] * n.x + byPlace[1] * n.y + byPlace[2] * n.z,
            byPlace[3] * n.x + byPlace[4] * n.y + byPlace[5] * n.z,
            byPlace[6] * n.x + byPlace[7] * n.y + byPlace[8] * n.z};
}
SWINGROOM_LANES void projectVelocity(Lane& along, Lane3& across, const LaneMotion::Field& field, const Lane3& n) {
  Lane3 linear, angular;
  spread(linear, field.linear);
  spread(angular, field.angular);
  dot(along, n, linear);
  cross(across, n, angular);
}

/// The most that -u speed + u^2 bend / 2 takes off for u up to halfWidth, without the third order.
SWINGROOM_LANES void takenOff(Lane& to, const LaneMotion& motion, const Lane& speed, const Lane& bend) {
  const double h = motion.halfWidth;
  const Lane toTheEnd = h * speed - 0.5 * h * h * bend;
  const Mask turnsBack = (bend > 0) & (speed < h * bend);
  const Lane safe = turnsBack ? bend : bend - bend + 1;
  to = turnsBack ? 0.5 * speed * speed / safe : toTheEnd;
}

/// What motion takes off a separation along n (unit, from A to B) of boxes with these centres and axes in A.
SWINGROOM_LANES void lossOf(Lane& loss, const LaneMotion& motion, const Lane& fromAxis, const Lane3& centre,
                   const Lane3* axes, const Lane* half, const Lane3& n) {
  Lane speed, bend, part;
  Lane3 bendAcross;
  spread(speed, 0);
  for (const LaneMotion::Field& field : motion.fields) {
    Lane ofField;
    Lane3 across;
    projectVelocity(ofField, across, field, n);
    dot(part, centre, across);
    ofField += part;
    absolute(ofField, ofField);
    for (int j = 0; j < 3; ++j) {
      dot(part, axes[j], across);
      absolute(part, part);
      ofField += part * half[j];
    }
    speed += ofField;
  }
  project(bend, bendAcross, motion.bendLinear, motion.bendTurn, n);
  dot(part, centre, bendAcross);
  bend += part;
  for (int j = 0; j < 3; ++j) {
    dot(part, axes[j], bendAcross);
    absolute(part, part);
    bend -= part * half[j];
  }
  takenOff(loss, motion, speed, bend);
  restAlong(part, motion, fromAxis, n);
  loss += part;
}

/// v or -v, by the sign.
SWINGROOM_LANES void turnTowards(Lane3& v, const Lane& sign) {
  const Mask back = sign < 0;
  v = {back ? -v.x : v.x, back ? -v.y : v.y, back ? -v.z : v.z};
}

/// v less its part along `gone`; 0 if nothing is left.
SWINGROOM_LANES void without(Lane3& v, const Lane3& gone) {
  Lane along, size, length;
  dot(along, v, gone);
  dot(size, gone, gone);
  const Lane share = size > 0 ? along / size : size;
  v = {v.x - share * gone.x, v.y - share * gone.y, v.z - share * gone.z};
  dot(size, v, v);
  root(length, size);
  const Lane scale = length > 1e-6 ? 1 / length : length - length;
  v = {v.x * scale, v.y * scale, v.z * scale};
}

SWINGROOM_LANES void velocityAt(Lane3& to, const LaneMotion& motion, const Lane3& p) {
  Lane3 linear, angular;
  spread(linear, motion.velocity.linear);
  spread(angular, motion.velocity.angular);
  cross(to, angular, p);
  to = {to.x + linear.x, to.y + linear.y, to.z + linear.z};
}

SWINGROOM_LANES void boxes(const LaneMotion& motion, const std::array<const Node*, kLanes>& nodesA,
                  const std::array<const Node*, kLanes>& nodesB, const LaneGoals& goals, LaneBounds& bounds) {
  Boxes a, b;
  gather(a, nodesA);
  gather(b, nodesB);
  Lane3 centre, axesB[3];
  turn(centre, motion.R_AB, b.centre);
  centre = {centre.x + motion.p_AB[0], centre.y + motion.p_AB[1], centre.z + motion.p_AB[2]};
  for (int j = 0; j < 3; ++j) turn(axesB[j], motion.R_AB, b.axes[j]);
  const Lane3 c{centre.x - a.centre.x, centre.y - a.centre.y, centre.z - a.centre.z};

  // Along the axes of either box the other one's extent is known exactly.
  Lane alongA[3], alongB[3], gapA[3], gapB[3];
  for (int i = 0; i < 3; ++i) {
    dot(alongA[i], a.axes[i], c);
    dot(alongB[i], axesB[i], c);
    absolute(gapA[i], alongA[i]);
    absolute(gapB[i], alongB[i]);
    gapA[i] -= a.half[i];
    gapB[i] -= b.half[i];
  }
  for (int i = 0; i < 3; ++i) {
    for (int j = 0; j < 3; ++j) {
      Lane shared;
      dot(shared, a.axes[i], axesB[j]);
      absolute(shared, shared);
      gapA[i] -= shared * b.half[j];
      gapB[j] -= shared * a.half[i];
    }
  }
  Lane zero, squaredA, squaredB;
  spread(zero, 0);
  squaredA = squaredB = zero;
  for (int i = 0; i < 3; ++i) {
    Lane beyond;
    positive(beyond, gapA[i]);
    squaredA += beyond * beyond;
    positive(beyond, gapB[i]);
    squaredB += beyond * beyond;
  }
  const Mask fromA = squaredA >= squaredB;
  Lane gap;
  root(gap, fromA ? squaredA : squaredB);
  store(gap, bounds.gapMm.data());
  if (!motion.moves) {
    bounds.lowerMm = bounds.gapMm;
    return;
  }

  Lane3 n{zero, zero, zero};
  const Lane scale = gap > 0 ? 1 / gap : zero;
  for (int i = 0; i < 3; ++i) {
    Lane ofA, ofB;
    positive(ofA, gapA[i]);
    positive(ofB, gapB[i]);
    ofA = alongA[i] < 0 ? -ofA : ofA;
    ofB = alongB[i] < 0 ? -ofB : ofB;
    const Lane weight = (fromA ? ofA : ofB) * scale;
    n.x += weight * (fromA ? a.axes[i].x : axesB[i].x);
    n.y += weight * (fromA ? a.axes[i].y : axesB[i].y);
    n.z += weight * (fromA ? a.axes[i].z : axesB[i].z);
  }
  Lane lower, loss, fromAxis;
  farthestFromAxis(fromAxis, motion, centre, b.radius);
  lossOf(loss, motion, fromAxis, centre, axesB, b.half, n);
  lower = gap - loss;

  Lane prove, least;
  spread(prove, goals.settleMm);
  spread(least, goals.leastMm);
  // Faces that slide over each other do not move along their normals,
  for (int i = 0; i < 3; ++i) {
    if (any((lower < prove) & (gapA[i] >= least))) {
      Lane3 towards = a.axes[i];
      turnTowards(towards, alongA[i]);
      lossOf(loss, motion, fromAxis, centre, axesB, b.half, towards);
      larger(lower, gapA[i] - loss);
    }
    if (any((lower < prove) & (gapB[i] >= least))) {
      Lane3 towards = axesB[i];
      turnTowards(towards, alongB[i]);
      lossOf(loss, motion, fromAxis, centre, axesB, b.half, towards);
      larger(lower, gapB[i] - loss);
    }
  }
  // and nothing moves along a direction across its velocity.
  if (any((lower < prove) & (gap >= least))) {
    Lane3 velocity;
    velocityAt(velocity, motion, centre);
    without(n, velocity);
    Lane apart, part;
    dot(apart, n, c);
    turnTowards(n, apart);
    absolute(apart, apart);
    for (int i = 0; i < 3; ++i) {
      dot(part, n, a.axes[i]);
      absolute(part, part);
      apart -= part * a.half[i];
      dot(part, n, axesB[i]);
      absolute(part, part);
      apart -= part * b.half[i];
    }
    if (any((lower < prove) & (apart >= least))) {
      lossOf(loss, motion, fromAxis, centre, axesB, b.half, n);
      larger(lower, apart - loss);
    }
  }
  positive(lower, lower);
  store(lower, bounds.lowerMm.data());
}

/// Separation of one triangle and four along n, and what is left of it over the interval.
SWINGROOM_LANES void along(Lane& apart, Lane& lower, const LaneMotion& motion, const Lane& fromAxis, const Lane3* onA,
                  const Lane3* onB, Lane3 n, const Lane& prove,
                  const Lane& least) {
  Lane lowA, highA, lowB, highB, at, ofB[3];
  dot(lowA, n, onA[0]);
  highA = lowA;
  dot(ofB[0], n, onB[0]);
  lowB = highB = ofB[0];
  for (int k = 1; k < 3; ++k) {
    dot(at, n, onA[k]);
    smaller(lowA, at);
    larger(highA, at);
    dot(ofB[k], n, onB[k]);
    smaller(lowB, ofB[k]);
    larger(highB, ofB[k]);
  }
  const Lane ahead = lowB - highA, behind = lowA - highB;
  Lane here = ahead;
  larger(here, behind);
  larger(apart, here);
  if (!motion.moves || !any((lower < prove) & (here >= least))) return;
  const Mask back = behind > ahead;
  n = {back ? -n.x : n.x, back ? -n.y : n.y, back ? -n.z : n.z};
  Lane bendBase, left, speeds[3];
  Lane3 bendAcross;
  for (int k = 0; k < 3; ++k) spread(speeds[k], 0);
  for (const LaneMotion::Field& field : motion.fields) {
    Lane base, speed;
    Lane3 across;
    projectVelocity(base, across, field, n);
    for (int k = 0; k < 3; ++k) {
      dot(speed, onB[k], across);
      speed += base;
      absolute(speed, speed);
      speeds[k] += speed;
    }
  }
  project(bendBase, bendAcross, motion.bendLinear, motion.bendTurn, n);
  // At any instant the separation is least at a corner.
  for (int k = 0; k < 3; ++k) {
    Lane bend, loss;
    dot(bend, onB[k], bendAcross);
    bend += bendBase;
    takenOff(loss, motion, speeds[k], bend);
    const Lane cornerLeft = (back ? lowA - ofB[k] : ofB[k] - highA) - loss;
    if (k == 0) left = cornerLeft;
    smaller(left, cornerLeft);
  }
  Lane rest;
  restAlong(rest, motion, fromAxis, n);
  larger(lower, left - rest);
}

SWINGROOM_LANES void unit(Lane3& v) {
  Lane size, length;
  dot(size, v, v);
  root(length, size);
  const Lane scale = length > 0 ? 1 / length : length;
  v = {v.x * scale, v.y * scale, v.z * scale};
}

/// Some of the pairs may be nearest, or need another direction.
SWINGROOM_LANES bool isOpen(const LaneMotion& motion, const Lane& apart, const Lane& lower, const LaneGoals& goals) {
  return any(apart < goals.soughtMm) || (motion.moves && any(lower < goals.settleMm));
}

SWINGROOM_LANES void triangles(const LaneMotion& motion, const TriangleCorners& cornersA,
                      const PlacedTriangles& placed, const LaneGoals& goals, LaneBounds& bounds) {
  Lane3 onA[3], onB[3], normalA, normalB;
  for (std::size_t k = 0; k < 3; ++k) {
    spread(onA[k], cornersA[k].data());
    load(onB[k].x, placed.corner[k][0]);
    load(onB[k].y, placed.corner[k][1]);
    load(onB[k].z, placed.corner[k][2]);
  }
  load(normalB.x, placed.normal[0]);
  load(normalB.y, placed.normal[1]);
  load(normalB.z, placed.normal[2]);
  Lane apart, lower, prove, least, fromAxis;
  spread(fromAxis, placed.fromAxisMm);
  spread(apart, 0);
  spread(prove, goals.settleMm);
  spread(least, goals.leastMm);
  lower = apart;
  const Lane3 e1{onA[1].x - onA[0].x, onA[1].y - onA[0].y, onA[1].z - onA[0].z};
  const Lane3 e2{onA[2].x - onA[0].x, onA[2].y - onA[0].y, onA[2].z - onA[0].z};
  cross(normalA, e1, e2);
  unit(normalA);
  along(apart, lower, motion, fromAxis, onA, onB, normalA, prove, least);
  if (isOpen(motion, apart, lower, goals)) along(apart, lower, motion, fromAxis, onA, onB, normalB, prove, least);
  if (isOpen(motion, apart, lower, goals)) {
    Lane3 between{onB[0].x - onA[0].x, onB[0].y - onA[0].y, onB[0].z - onA[0].z};
    for (int k = 1; k < 3; ++k) {
      between.x += onB[k].x - onA[k].x;
      between.y += onB[k].y - onA[k].y;
      between.z += onB[k].z - onA[k].z;
    }
    unit(between);
    along(apart, lower, motion, fromAxis, onA, onB, between, prove, least);
    if (motion.moves && any(lower < prove)) {
      Lane3 velocity, middle{(onB[0].x + onB[1].x + onB[2].x) / 3, (onB[0].y + onB[1].y + onB[2].y) / 3,
                             (onB[0].z + onB[1].z + onB[2].z) / 3};
      velocityAt(velocity, motion, middle);
      without(between, velocity);
      along(apart, lower, motion, fromAxis, onA, onB, between, prove, least);
    }
  }
  store(apart, bounds.gapMm.data());
  store(motion.moves ? lower : apart, bounds.lowerMm.data());
}

#if defined(__x86_64__)
#define WIDE __attribute__((target("avx2")))
const bool kWide = __builtin_cpu_supports("avx2");
#else
#define WIDE
const bool kWide = false;
#endif

WIDE void boxesWide(const LaneMotion& motion, const std::array<const Node*, kLanes>& a,
                    const std::array<const Node*, kLanes>& b, const LaneGoals& goals, LaneBounds& bounds) {
  boxes(motion, a, b, goals, bounds);
}
void boxesPlain(const LaneMotion& motion, const std::array<const Node*, kLanes>& a,
                const std::array<const Node*, kLanes>& b, const LaneGoals& goals, LaneBounds& bounds) {
  boxes(motion, a, b, goals, bounds);
}
WIDE void trianglesWide(const LaneMotion& motion, const TriangleCorners& onA, const PlacedTriangles& onB,
                        const LaneGoals& goals, LaneBounds& bounds) {
  triangles(motion, onA, onB, goals, bounds);
}
void trianglesPlain(const LaneMotion& motion, const TriangleCorners& onA, const PlacedTriangles& onB,
                    const LaneGoals& goals, LaneBounds& bounds) {
  triangles(motion, onA, onB, goals, bounds);
}

}  // namespace

void compareBoxes(const LaneMotion& motion, const std::array<const Node*, kLanes>& a,
                  const std::array<const Node*, kLanes>& b, const LaneGoals& goals, LaneBounds& bounds) {
  (kWide ? boxesWide : boxesPlain)(motion, a, b, goals, bounds);
}

void compareTriangles(const LaneMotion& motion, const TriangleCorners& onA, const PlacedTriangles& onB,
                      const LaneGoals& goals, LaneBounds& bounds) {
  (kWide ? trianglesWide : trianglesPlain)(motion, onA, onB, goals, bounds);
}

}  // namespace swingroom

#undef WIDE
#pragma GCC diagnostic pop
