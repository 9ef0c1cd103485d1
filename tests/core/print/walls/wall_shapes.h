#pragma once

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "core/mesh/weld.h"
#include "core/print/walls/walls.h"
#include "tests/support/shapes.h"

namespace swingroom {

inline WallMap wallsIn(const TriangleMesh& mesh, ThicknessSettings settings = {}) {
  WorkMonitor monitor;
  return wallsOf(mesh, settings, monitor);
}

/// Triangles round a star-shaped outline about its first corner, as a straight prism along z.
inline TriangleMesh wallPrism(const std::vector<Eigen::Vector2d>& outline, double low,
                              double high) {
  return shapes::prism(outline, low, high);
}

/// A prism along z over a rectilinear outline, as `columns` of boxes that stand side by side; inner
/// faces are left out, so that it is one shell. Columns: x from, x to, y from, y to.
struct WallBlocks {
  std::vector<double> x, y, z;
  std::vector<std::array<std::size_t, 3>> filled;  ///< Cells of the grid.
};

inline TriangleMesh cellSolid(const WallBlocks& blocks) {
  const auto isFilled = [&](std::array<std::size_t, 3> cell) {
    return std::find(blocks.filled.begin(), blocks.filled.end(), cell) != blocks.filled.end();
  };
  TriangleMesh mesh;
  const std::array<const std::vector<double>*, 3> lines{&blocks.x, &blocks.y, &blocks.z};
  for (const auto& cell : blocks.filled) {
    for (std::size_t axis = 0; axis < 3; ++axis) {
      for (const int side : {0, 1}) {
        auto beside = cell;
        beside[axis] += side == 1 ? 1 : std::size_t(-1);
        if (isFilled(beside)) continue;
        const std::size_t u = (axis + 1) % 3, v = (axis + 2) % 3;
        const auto corner = [&](std::size_t du, std::size_t dv) {
          Vector3d p;
          p[static_cast<int>(axis)] = (*lines[axis])[cell[axis] + static_cast<std::size_t>(side)];
          p[static_cast<int>(u)] = (*lines[u])[cell[u] + du];
          p[static_cast<int>(v)] = (*lines[v])[cell[v] + dv];
          return p;
        };
        const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
        for (const auto& p : {corner(0, 0), corner(1, 0), corner(1, 1), corner(0, 1)})
          mesh.vertices.push_back(p);
        if (side == 1) {
          mesh.triangles.push_back({first, first + 1, first + 2});
          mesh.triangles.push_back({first, first + 2, first + 3});
        } else {
          mesh.triangles.push_back({first, first + 2, first + 1});
          mesh.triangles.push_back({first, first + 3, first + 2});
        }
      }
    }
  }
  return welded(mesh);
}

/// All cells of the grid but some.
inline WallBlocks allCells(std::vector<double> x, std::vector<double> y, std::vector<double> z) {
  WallBlocks blocks{std::move(x), std::move(y), std::move(z), {}};
  for (std::size_t i = 0; i + 1 < blocks.x.size(); ++i)
    for (std::size_t j = 0; j + 1 < blocks.y.size(); ++j)
      for (std::size_t k = 0; k + 1 < blocks.z.size(); ++k) blocks.filled.push_back({i, j, k});
  return blocks;
}

inline WallBlocks without(WallBlocks blocks, std::vector<std::array<std::size_t, 3>> cells) {
  for (const auto& cell : cells) std::erase(blocks.filled, cell);
  return blocks;
}

/// A solid of revolution about z over a profile of (radius, z), closed by the axis at both ends.
inline TriangleMesh turned(const std::vector<Eigen::Vector2d>& profile, int sides) {
  TriangleMesh mesh;
  const auto at = [&](const Eigen::Vector2d& p, int i) {
    const double angle = 2 * kPi * (i % sides) / sides;
    return Vector3d(p.x() * std::cos(angle), p.x() * std::sin(angle), p.y());
  };
  const auto add = [&](const Vector3d& a, const Vector3d& b, const Vector3d& c) {
    if (a == b || b == c || c == a) return;
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    mesh.vertices.insert(mesh.vertices.end(), {a, b, c});
    mesh.triangles.push_back({first, first + 1, first + 2});
  };
  for (std::size_t k = 0; k + 1 < profile.size(); ++k) {
    for (int i = 0; i < sides; ++i) {
      const Vector3d a = at(profile[k], i), b = at(profile[k], i + 1),
                     c = at(profile[k + 1], i + 1), d = at(profile[k + 1], i);
      add(a, b, c);
      add(a, c, d);
    }
  }
  return welded(mesh);
}

}  // namespace swingroom
