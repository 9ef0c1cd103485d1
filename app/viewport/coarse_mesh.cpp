#include "app/viewport/coarse_mesh.h"

#include <algorithm>
#include <cmath>
#include <unordered_map>

namespace swingroom {
namespace {

constexpr std::size_t kMostCoarseTriangles = 150'000;
constexpr std::size_t kPlainOutline = 3'000;  ///< Points that are not thinned out.
constexpr int kOutlineDirections = 200;

/// Which of the six sides of a cube a normal looks through most.
std::uint32_t facingOf(const Eigen::Vector3f& normal) {
  int axis = 0;
  normal.cwiseAbs().maxCoeff(&axis);
  return static_cast<std::uint32_t>(2 * axis + (normal[axis] < 0 ? 1 : 0));
}

class Clusters {
 public:
  explicit Clusters(const std::vector<ViewVertex>& vertices, std::size_t triangles) {
    Eigen::AlignedBox3f box;
    for (const ViewVertex& vertex : vertices) box.extend(vertex.position);
    // A cube's surface has 6 n^2 cells with two triangles each.
    const double cells = std::sqrt(static_cast<double>(triangles) / 12);
    low_ = box.min();
    perMm_ = static_cast<float>(cells / std::max(1e-6F, box.sizes().maxCoeff()));
  }

  void add(const ViewVertex& vertex) {
    const Eigen::Array3i cell = ((vertex.position - low_) * perMm_).array().floor().cast<int>();
    const std::uint64_t key = static_cast<std::uint64_t>(cell.x()) << 42 |
                              static_cast<std::uint64_t>(cell.y()) << 21 |
                              static_cast<std::uint64_t>(cell.z());
    const auto place = cells_.emplace(key, static_cast<std::uint32_t>(sums_.size()));
    if (place.second) sums_.emplace_back(0, 0, 0, 0);
    const std::uint32_t cellNumber = place.first->second;
    sums_[cellNumber] +=
        Eigen::Vector4f(vertex.position.x(), vertex.position.y(), vertex.position.z(), 1);
    const std::uint64_t facing = std::uint64_t{cellNumber} * 6 + facingOf(vertex.normal);
    const auto corner = corners_.emplace(facing, static_cast<std::uint32_t>(normals_.size()));
    if (corner.second) {
      normals_.emplace_back(Eigen::Vector3f::Zero());
      cellOf_.push_back(cellNumber);
    }
    normals_[corner.first->second] += vertex.normal;
    cornerOf_.push_back(corner.first->second);
  }

  CoarseMesh mesh(const std::vector<std::uint32_t>& indices) const {
    CoarseMesh mesh;
    for (std::size_t i = 0; i < normals_.size(); ++i) {
      const Eigen::Vector4f& sum = sums_[cellOf_[i]];
      mesh.vertices.push_back({sum.head<3>() / sum.w(), normals_[i].stableNormalized()});
    }
    for (std::size_t i = 0; i + 2 < indices.size(); i += 3) {
      const std::uint32_t a = cornerOf_[indices[i]], b = cornerOf_[indices[i + 1]],
                          c = cornerOf_[indices[i + 2]];
      if (cellOf_[a] == cellOf_[b] || cellOf_[b] == cellOf_[c] || cellOf_[c] == cellOf_[a])
        continue;
      mesh.indices.insert(mesh.indices.end(), {a, b, c});
    }
    return mesh;
  }

 private:
  Eigen::Vector3f low_;
  float perMm_ = 1;
  std::unordered_map<std::uint64_t, std::uint32_t> cells_, corners_;
  std::vector<Eigen::Vector4f> sums_;     ///< By cell: of its points, and how many.
  std::vector<Eigen::Vector3f> normals_;  ///< By coarse vertex: sum.
  std::vector<std::uint32_t> cellOf_;     ///< By coarse vertex.
  std::vector<std::uint32_t> cornerOf_;   ///< By vertex of the mesh.
};

/// The lattice of Fibonacci on a sphere: unit, even.
std::vector<Eigen::Vector3f> evenDirections() {
  std::vector<Eigen::Vector3f> directions;
  const double golden = kPi * (3 - std::sqrt(5.0));
  for (int i = 0; i < kOutlineDirections; ++i) {
    const double z = 1 - (2 * i + 1.0) / kOutlineDirections, r = std::sqrt(1 - z * z);
    directions.emplace_back(static_cast<float>(r * std::cos(golden * i)),
                            static_cast<float>(r * std::sin(golden * i)), static_cast<float>(z));
  }
  for (int axis = 0; axis < 3; ++axis) {
    directions.push_back(Eigen::Vector3f::Unit(axis));
    directions.push_back(-Eigen::Vector3f::Unit(axis));
  }
  return directions;
}

}  // namespace

CoarseMesh coarsened(const std::vector<ViewVertex>& vertices,
                     const std::vector<std::uint32_t>& indices) {
  const std::size_t triangles = indices.size() / 3;
  if (triangles < kLeastCoarseTriangles) return {};
  Clusters clusters(vertices, std::min(triangles / 8, kMostCoarseTriangles));
  for (const ViewVertex& vertex : vertices) clusters.add(vertex);
  return clusters.mesh(indices);
}

std::vector<Eigen::Vector3f> outlineOf(const std::vector<Eigen::Vector3f>& points) {
  if (points.size() <= kPlainOutline) return points;
  std::vector<Eigen::Vector3f> outline;
  for (const Eigen::Vector3f& direction : evenDirections()) {
    const auto farthest = std::max_element(
        points.begin(), points.end(),
        [&](const auto& a, const auto& b) { return direction.dot(a) < direction.dot(b); });
    outline.push_back(*farthest);
  }
  return outline;
}

}  // namespace swingroom
