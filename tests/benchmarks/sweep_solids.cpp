#include "tests/benchmarks/sweep_solids.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

#include "core/base/transform.h"

namespace swingroom::bench {
namespace {

/// 0 to 1. Not of std::uniform_real_distribution, whose numbers are each library's own.
double unit(std::mt19937_64& random) {
  return static_cast<double>(random() >> 11) * 0x1p-53;
}

/// A smooth field of about -1 to 1: six waves of 8 to 22 mm.
class SmoothNoise {
 public:
  explicit SmoothNoise(std::uint64_t seed) {
    std::mt19937_64 random(seed);
    for (Wave& wave : waves_) {
      Vector3d direction;
      do {
        for (double& x : direction) x = 2 * unit(random) - 1;
      } while (direction.norm() > 1 || direction.norm() < 0.1);
      wave.vector = direction.normalized() * (2 * kPi / (8 + 14 * unit(random)));
      wave.phase = 2 * kPi * unit(random);
    }
  }
  double at(const Vector3d& p) const {
    double sum = 0;
    for (const Wave& wave : waves_) sum += std::sin(wave.vector.dot(p) + wave.phase);
    return sum / 3.5;
  }

 private:
  struct Wave {
    Vector3d vector;
    double phase = 0;
  };
  std::array<Wave, 6> waves_;
};

/// The surface of a grid of cells, `counts` a side; vertices are given as grid points.
class GridSurface {
 public:
  explicit GridSurface(const Eigen::Vector3i& counts) : counts_(counts) {
    for (int axis = 0; axis < 3; ++axis) {
      addSide(axis, false);
      addSide(axis, true);
    }
  }
  const std::vector<Eigen::Vector3i>& points() const { return points_; }
  const std::vector<Triangle>& triangles() const { return triangles_; }

 private:
  void addSide(int axis, bool upper) {
    const int u = (axis + 1) % 3, v = (axis + 2) % 3;
    for (int i = 0; i < counts_[u]; ++i) {
      for (int j = 0; j < counts_[v]; ++j) {
        const auto corner = [&](int di, int dj) {
          Eigen::Vector3i point;
          point[axis] = upper ? counts_[axis] : 0;
          point[u] = i + di;
          point[v] = j + dj;
          return indexOf(point);
        };
        std::array<std::uint32_t, 4> quad{corner(0, 0), corner(1, 0), corner(1, 1), corner(0, 1)};
        if (!upper) std::swap(quad[1], quad[3]);
        triangles_.push_back({quad[0], quad[1], quad[2]});
        triangles_.push_back({quad[0], quad[2], quad[3]});
      }
    }
  }
  std::uint32_t indexOf(const Eigen::Vector3i& point) {
    const auto [found, isNew] = indices_.try_emplace(std::array{point[0], point[1], point[2]},
                                                     static_cast<std::uint32_t>(points_.size()));
    if (isNew) points_.push_back(point);
    return found->second;
  }

  Eigen::Vector3i counts_;
  std::vector<Eigen::Vector3i> points_;
  std::vector<Triangle> triangles_;
  std::map<std::array<int, 3>, std::uint32_t> indices_;
};

/// The outline's points, edges split into pieces of about `lengthMm`; closed or not.
std::vector<TurnedCorner> splitOutline(const std::vector<TurnedCorner>& outline, double lengthMm,
                                       bool closed) {
  std::vector<TurnedCorner> points;
  const std::size_t edges = outline.size() - (closed ? 0 : 1);
  for (std::size_t i = 0; i < edges; ++i) {
    const TurnedCorner& from = outline[i];
    const TurnedCorner& to = outline[(i + 1) % outline.size()];
    const int pieces = std::max(1, static_cast<int>(std::lround((to - from).norm() / lengthMm)));
    for (int k = 0; k < pieces; ++k) points.push_back(from + (to - from) * k / pieces);
  }
  if (!closed) points.push_back(outline.back());
  return points;
}

double lengthOf(const std::vector<TurnedCorner>& outline, bool closed) {
  double length = closed ? (outline.front() - outline.back()).norm() : 0;
  for (std::size_t i = 0; i + 1 < outline.size(); ++i)
    length += (outline[i + 1] - outline[i]).norm();
  return length;
}

/// Rings of vertices, one a point of the outline, and the quads between neighbours.
TriangleMesh turned(const std::vector<TurnedCorner>& points, int around, bool closed,
                    const RadiusAt& radiusAt) {
  TriangleMesh mesh;
  for (const TurnedCorner& point : points) {
    for (int i = 0; i < around; ++i) {
      const double angle = 2 * kPi * i / around;
      const double radius = radiusAt ? radiusAt(point.x(), angle) : point.x();
      mesh.vertices.emplace_back(radius * std::cos(angle), radius * std::sin(angle), point.y());
    }
  }
  const auto sides = static_cast<std::uint32_t>(around);
  const auto rings = static_cast<std::uint32_t>(points.size());
  for (std::uint32_t r = 0; r + (closed ? 0 : 1) < rings; ++r) {
    const std::uint32_t lower = r * sides, upper = (r + 1) % rings * sides;
    for (std::uint32_t i = 0; i < sides; ++i) {
      const std::uint32_t j = (i + 1) % sides;
      mesh.triangles.push_back({lower + i, lower + j, upper + j});
      mesh.triangles.push_back({lower + i, upper + j, upper + i});
    }
  }
  return mesh;
}

}  // namespace

TriangleMesh bumpyBlock(const Vector3d& half, double edgeRadius, std::size_t triangles,
                        const Bumps& bumps) {
  const double faces = half.x() * half.y() + half.y() * half.z() + half.z() * half.x();
  const double cell = std::sqrt(faces * 4 / static_cast<double>(triangles));
  Eigen::Vector3i counts;
  for (int axis = 0; axis < 3; ++axis)
    counts[axis] = std::max(1, static_cast<int>(std::lround(half[axis] / cell)));
  const GridSurface grid(counts);
  const SmoothNoise noise(bumps.seed);
  const Vector3d core = half.array() - std::min(edgeRadius, half.minCoeff());
  TriangleMesh mesh;
  mesh.triangles = grid.triangles();
  for (const Eigen::Vector3i& point : grid.points()) {
    const Vector3d onBox =
        half.array() * (2 * point.cast<double>().array() / counts.cast<double>().array() - 1);
    const Vector3d inner = onBox.cwiseMax(-core).cwiseMin(core);
    const Vector3d out = (onBox - inner).normalized();
    const Vector3d onBlock = inner + out * (half - core).x();
    mesh.vertices.push_back(onBlock + out * bumps.heightMm * noise.at(onBlock));
  }
  return mesh;
}

TriangleMesh turnedRing(const std::vector<TurnedCorner>& outline, int around, std::size_t triangles,
                        const RadiusAt& radiusAt) {
  const double rings = static_cast<double>(triangles) / (2.0 * around);
  return turned(splitOutline(outline, lengthOf(outline, true) / rings, true), around, true,
                radiusAt);
}

TriangleMesh turnedPin(double radius, double low, double high, int around, std::size_t triangles,
                       const RadiusAt& radiusAt) {
  // The last hundredth of both ends is a fan to the axis.
  const std::vector<TurnedCorner> outline{
      {radius * 0.01, low}, {radius, low}, {radius, high}, {radius * 0.01, high}};
  const double rings = static_cast<double>(triangles) / (2.0 * around);
  const auto points = splitOutline(outline, lengthOf(outline, false) / rings, false);
  TriangleMesh mesh = turned(points, around, false, radiusAt);
  const auto sides = static_cast<std::uint32_t>(around);
  const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
  mesh.vertices.emplace_back(0, 0, low);
  mesh.vertices.emplace_back(0, 0, high);
  const std::uint32_t last = first - sides;
  for (std::uint32_t i = 0; i < sides; ++i) {
    const std::uint32_t j = (i + 1) % sides;
    mesh.triangles.push_back({first, j, i});
    mesh.triangles.push_back({first + 1, last + i, last + j});
  }
  return mesh;
}

}  // namespace swingroom::bench
