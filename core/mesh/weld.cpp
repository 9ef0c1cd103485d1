#include "core/mesh/weld.h"

#include <bit>
#include <cstdint>
#include <limits>
#include <utility>

namespace swingroom {
namespace {

constexpr std::uint32_t kNone = std::numeric_limits<std::uint32_t>::max();

std::uint64_t mixed(std::uint64_t x) {
  // The finaliser of MurmurHash3: coordinates of printed parts differ in few bits only.
  x ^= x >> 33;
  x *= 0xff51afd7ed558ccdull;
  x ^= x >> 33;
  x *= 0xc4ceb9fe1a85ec53ull;
  return x ^ (x >> 33);
}

std::uint64_t hashOf(const Eigen::Vector3d& p) {
  std::uint64_t hash = 0;
  for (int k = 0; k < 3; ++k) hash = mixed(hash + std::bit_cast<std::uint64_t>(p[k]));
  return hash;
}

/// Numbers distinct points in the order in which they are first asked for. Open addressing: a node
/// a point, as in the standard containers, took most of the time of reading a large mesh.
class PointNumbering {
 public:
  explicit PointNumbering(std::size_t mostPoints)
      : slots_(std::bit_ceil(2 * mostPoints + 1), kNone), mask_(slots_.size() - 1) {}

  std::uint32_t numberOf(const Eigen::Vector3d& point) {
    const Eigen::Vector3d p = point + Eigen::Vector3d::Zero();  // -0 becomes 0.
    std::size_t slot = hashOf(p) & mask_;
    while (slots_[slot] != kNone && points_[slots_[slot]] != p) slot = (slot + 1) & mask_;
    if (slots_[slot] == kNone) {
      slots_[slot] = static_cast<std::uint32_t>(points_.size());
      points_.push_back(p);
    }
    return slots_[slot];
  }

  std::vector<Eigen::Vector3d> take() { return std::move(points_); }

 private:
  std::vector<std::uint32_t> slots_;
  std::size_t mask_;
  std::vector<Eigen::Vector3d> points_;
};

}  // namespace

TriangleMesh welded(const TriangleMesh& mesh) {
  TriangleMesh result;
  result.triangles.reserve(mesh.triangles.size());
  PointNumbering numbering(mesh.vertices.size());
  std::vector<std::uint32_t> numbers(mesh.vertices.size(), kNone);
  for (const auto& triangle : mesh.triangles) {
    Triangle renumbered;
    for (std::size_t i = 0; i < 3; ++i) {
      std::uint32_t& number = numbers.at(triangle[i]);
      if (number == kNone) number = numbering.numberOf(mesh.vertices[triangle[i]]);
      renumbered[i] = number;
    }
    result.triangles.push_back(renumbered);
  }
  result.vertices = numbering.take();
  return result;
}

}  // namespace swingroom
