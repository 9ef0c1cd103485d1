#include "sample_assemblies/sculpt/sculpt.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sample_assemblies/mesh_export.h"
#include "sample_assemblies/sculpt/refine.h"
#include "sample_assemblies/sculpt/relief.h"

namespace swingroom::samples {
namespace {

using Eigen::Vector3d;

constexpr double kFar = std::numeric_limits<double>::infinity();

double distanceTo(const Keep& keep, const Vector3d& p) {
  const Vector3d way = keep.to - keep.from;
  const double share = std::clamp((p - keep.from).dot(way) / way.squaredNorm(), 0.0, 1.0);
  return (p - keep.from - share * way).norm() - keep.radius;
}

/// 0 where nothing may move, 1 where all may.
double freedomAt(const Sculpture& sculpture, const Vector3d& p) {
  double freedom = 1;
  for (const Keep& keep : sculpture.holes)
    freedom *= relief::rise(0, keep.fadeMm, distanceTo(keep, p));
  for (const KeepBox& keep : sculpture.kept) {
    freedom *= relief::rise(0, keep.fadeMm, keep.box.exteriorDistance(p));
  }
  return freedom;
}

/// 1 on the face and above it, 0 from `depthMm` below.
double strengthAt(const Push& push, const Vector3d& p) {
  if (!push.where.contains(p)) return 0;
  return relief::rise(push.depthMm, 0, push.belowMm(p));
}

Vector3d movedBy(const Sculpture& sculpture, Vector3d p) {
  const double freedom = freedomAt(sculpture, p);
  if (freedom == 0) return p;
  for (const Push& push : sculpture.pushes) {
    const double strength = strengthAt(push, p);
    if (strength > 0) p += freedom * strength * push.heightMm(p) * push.outward(p);
  }
  return p;
}

double edgeWanted(const Sculpture& sculpture, const Vector3d& p) {
  double wanted = kFar;
  for (const Push& push : sculpture.pushes) {
    if (strengthAt(push, p) > 0.3) wanted = std::min(wanted, push.edgeMm);
  }
  return wanted < kFar && freedomAt(sculpture, p) > 0.02 ? wanted : kFar;
}

}  // namespace

Eigen::AlignedBox3d boxOf(const Vector3d& low, const Vector3d& high) {
  return {low, high};
}

Push onFace(int axis, double level, int sign, const Eigen::AlignedBox3d& where,
            std::function<double(const Vector3d&)> heightMm) {
  const Vector3d outward = sign * Vector3d::Unit(axis);
  return {where, std::move(heightMm), [=](const Vector3d& p) { return sign * (level - p[axis]); },
          [=](const Vector3d&) { return outward; }};
}

Push onBar(int axis, const Vector3d& centre, double radius, const Eigen::AlignedBox3d& where,
           std::function<double(const Vector3d&)> heightMm) {
  const auto off = [=](const Vector3d& p) {
    Vector3d from = p - centre;
    from[axis] = 0;
    return from;
  };
  return {where, std::move(heightMm), [=](const Vector3d& p) { return radius - off(p).norm(); },
          [=](const Vector3d& p) -> Vector3d { return off(p).stableNormalized(); }};
}

TriangleMesh sculpted(const TriangleMesh& block, const Sculpture& sculpture) {
  const Fineness fineness{[&](const Vector3d& p) { return edgeWanted(sculpture, p); },
                          [&](const Vector3d& p) { return movedBy(sculpture, p); },
                          [&](const Vector3d& p) {
                            return std::any_of(
                                sculpture.holes.begin(), sculpture.holes.end(),
                                [&](const Keep& keep) { return distanceTo(keep, p) <= 0; });
                          },
                          sculpture.strayMm, sculpture.leastMm};
  TriangleMesh mesh = refined(block, fineness);
  for (Vector3d& vertex : mesh.vertices) vertex = movedBy(sculpture, vertex);
  return roundedToFloat(std::move(mesh));
}

}  // namespace swingroom::samples
