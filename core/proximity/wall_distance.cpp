#include "core/proximity/wall_distance.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

// Lanes are set through references: vectors as results have no fixed calling convention.
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wmaybe-uninitialized"

namespace swingroom {
namespace {

using Eigen::Vector3d;

constexpr int kPoints = 4;
/// Squared sine below which a triangle counts as a line.
constexpr double kLineSquared = 1e-16;

typedef double PointLane __attribute__((vector_size(8 * kPoints)));
typedef long long PointMask __attribute__((vector_size(8 * kPoints)));

struct WallEdge {
  double start[3], along[3], inward[3];
  double perSquared;  ///< 1 / length^2; 0 for an edge without length.
};
struct WallFrame {
  WallEdge edges[3];
  double normal[3];
  double perSquared;  ///< 1 / |normal|^2; 0 for a line.
};

void copyTo(double* to, const Vector3d& from) {
  std::copy(from.data(), from.data() + 3, to);
}

WallFrame wallFrameOf(const TriangleCorners& t) {
  WallFrame frame;
  const Vector3d ab = t[1] - t[0], ac = t[2] - t[0];
  const Vector3d normal = ab.cross(ac);
  const double squared = normal.squaredNorm();
  const bool line = !(squared > kLineSquared * ab.squaredNorm() * ac.squaredNorm());
  frame.perSquared = line ? 0 : 1 / squared;
  copyTo(frame.normal, normal);
  for (int i = 0; i < 3; ++i) {
    const Vector3d along = t[(i + 1) % 3] - t[i];
    const double length = along.squaredNorm();
    frame.edges[i].perSquared = length > 0 ? 1 / length : 0;
    copyTo(frame.edges[i].start, t[i]);
    copyTo(frame.edges[i].along, along);
    copyTo(frame.edges[i].inward, normal.cross(along));
  }
  return frame;
}

/// @param at  x, y and z of four points.
__attribute__((always_inline)) inline void fourSquared(const WallFrame& frame, const PointLane* at,
                                                       PointLane& least) {
  PointMask over;
  PointLane height;
  for (int i = 0; i < 3; ++i) {
    const WallEdge& edge = frame.edges[i];
    const PointLane x = at[0] - edge.start[0], y = at[1] - edge.start[1], z = at[2] - edge.start[2];
    PointLane share = (x * edge.along[0] + y * edge.along[1] + z * edge.along[2]) * edge.perSquared;
    share = share > 0 ? share : share - share;
    share = share < 1 ? share : share - share + 1;
    const PointLane dx = x - share * edge.along[0], dy = y - share * edge.along[1],
                    dz = z - share * edge.along[2];
    const PointLane squared = dx * dx + dy * dy + dz * dz;
    const PointMask within = x * edge.inward[0] + y * edge.inward[1] + z * edge.inward[2] > 0;
    if (i == 0) {
      least = squared;
      over = within;
      height = x * frame.normal[0] + y * frame.normal[1] + z * frame.normal[2];
    } else {
      least = squared < least ? squared : least;
      over &= within;
    }
  }
  if (frame.perSquared == 0) return;
  const PointLane plane = height * height * frame.perSquared;
  least = over ? plane : least;
}

__attribute__((always_inline)) inline void squaredOf(const WallFrame& frame, const double* points,
                                                     int count, double* squared) {
  for (int from = 0; from < count; from += kPoints) {
    PointLane at[3], least;
    for (int lane = 0; lane < kPoints; ++lane) {
      const double* p = points + 3 * std::min(from + lane, count - 1);
      for (int x = 0; x < 3; ++x) at[x][lane] = p[x];
    }
    fourSquared(frame, at, least);
    for (int lane = 0; lane < kPoints && from + lane < count; ++lane) {
      squared[from + lane] = least[lane];
    }
  }
}

#if defined(__x86_64__)
const bool kWidePoints = __builtin_cpu_supports("avx2");
__attribute__((target("avx2"))) void squaredWide(const WallFrame& frame, const double* points,
                                                 int count, double* squared) {
  squaredOf(frame, points, count, squared);
}
#else
const bool kWidePoints = false;
void squaredWide(const WallFrame& frame, const double* points, int count, double* squared) {
  squaredOf(frame, points, count, squared);
}
#endif
void squaredPlain(const WallFrame& frame, const double* points, int count, double* squared) {
  squaredOf(frame, points, count, squared);
}

}  // namespace

void distancesToTriangle(const Vector3d* points, int count, const TriangleCorners& triangle,
                         double* mm) {
  static_assert(sizeof(Vector3d) == 3 * sizeof(double));
  const WallFrame frame = wallFrameOf(triangle);
  (kWidePoints ? squaredWide : squaredPlain)(frame, points->data(), count, mm);
  for (int i = 0; i < count; ++i) mm[i] = std::sqrt(mm[i]);
}

}  // namespace swingroom

#pragma GCC diagnostic pop
