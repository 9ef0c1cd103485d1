#include "core/picture/smoothing.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/base/transform.h"
#include "core/mesh/weld.h"

namespace swingroom {
namespace {

/// Edge by its two vertices, lower one first, and a triangle at it.
struct EdgeUse {
  std::uint64_t edge;
  std::uint32_t triangle;
  bool operator<(const EdgeUse& other) const {
    return edge != other.edge ? edge < other.edge : triangle < other.triangle;
  }
};

std::vector<EdgeUse> sortedEdges(const TriangleMesh& mesh) {
  std::vector<EdgeUse> uses;
  uses.reserve(3 * mesh.triangles.size());
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
    const Triangle& triangle = mesh.triangles[i];
    for (std::size_t k = 0; k < 3; ++k) {
      const auto [low, high] = std::minmax({triangle[k], triangle[(k + 1) % 3]});
      uses.push_back({std::uint64_t{low} << 32 | high, static_cast<std::uint32_t>(i)});
    }
  }
  std::sort(uses.begin(), uses.end());
  return uses;
}

std::uint32_t rootOf(std::vector<std::uint32_t>& parents, std::uint32_t i) {
  while (parents[i] != i) i = parents[i] = parents[parents[i]];
  return i;
}

/// Twice the area along the normal, of each triangle.
std::vector<Vector3d> areaNormals(const TriangleMesh& mesh) {
  std::vector<Vector3d> normals(mesh.triangles.size());
  for (std::size_t i = 0; i < normals.size(); ++i) {
    const Vector3d& a = mesh.corner(i, 0);
    normals[i] = (mesh.corner(i, 1) - a).cross(mesh.corner(i, 2) - a);
    if (!normals[i].allFinite()) normals[i].setZero();
  }
  return normals;
}

std::vector<std::uint32_t> smoothFaces(const TriangleMesh& mesh,
                                       const std::vector<Vector3d>& units) {
  std::vector<std::uint32_t> parents(mesh.triangles.size());
  std::iota(parents.begin(), parents.end(), 0);
  const double least = std::cos(radFromDeg(kCreaseDeg));
  const std::vector<EdgeUse> uses = sortedEdges(mesh);
  for (std::size_t i = 0; i + 1 < uses.size(); ++i) {
    if (uses[i].edge != uses[i + 1].edge) continue;
    const auto [a, b] = std::pair(uses[i].triangle, uses[i + 1].triangle);
    if (units[a].dot(units[b]) < least) continue;
    const auto [low, high] = std::minmax({rootOf(parents, a), rootOf(parents, b)});
    parents[high] = low;
  }
  for (std::uint32_t i = 0; i < parents.size(); ++i) parents[i] = rootOf(parents, i);
  return parents;
}

/// A corner of a triangle as a user of a vertex of a face.
struct CornerUse {
  std::uint64_t vertexOfFace;
  std::uint32_t corner;
  bool operator<(const CornerUse& other) const {
    return vertexOfFace != other.vertexOfFace ? vertexOfFace < other.vertexOfFace
                                              : corner < other.corner;
  }
};

/// The mean of a face's triangles round each vertex, by area: large flat triangles stay flat beside
/// fillets.
void averageCorners(const TriangleMesh& mesh, const std::vector<Vector3d>& normals,
                    Smoothing& result) {
  std::vector<CornerUse> uses;
  uses.reserve(3 * mesh.triangles.size());
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
    for (std::size_t k = 0; k < 3; ++k) {
      uses.push_back({std::uint64_t{mesh.triangles[i][k]} << 32 | result.faces[i],
                      static_cast<std::uint32_t>(3 * i + k)});
    }
  }
  std::sort(uses.begin(), uses.end());
  for (std::size_t i = 0; i < uses.size();) {
    std::size_t end = i;
    Vector3d sum = Vector3d::Zero();
    for (; end < uses.size() && uses[end].vertexOfFace == uses[i].vertexOfFace; ++end) {
      sum += normals[uses[end].corner / 3];
    }
    const Eigen::Vector3f unit = sum.stableNormalized().cast<float>();
    for (; i < end; ++i) result.corners[uses[i].corner / 3][uses[i].corner % 3] = unit;
  }
}

}  // namespace

Smoothing smoothed(const TriangleMesh& loose) {
  const TriangleMesh mesh = welded(loose);
  const std::vector<Vector3d> normals = areaNormals(mesh);
  std::vector<Vector3d> units;
  Smoothing result;
  for (const Vector3d& normal : normals) {
    const double length = normal.stableNorm();
    units.push_back(length > 0 ? Vector3d(normal / length) : Vector3d(Vector3d::Zero()));
    result.flat.push_back(units.back().cast<float>());
  }
  result.faces = smoothFaces(mesh, units);
  result.corners.resize(mesh.triangles.size());
  averageCorners(mesh, normals, result);
  return result;
}

}  // namespace swingroom
