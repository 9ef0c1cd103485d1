#include "core/print/walls/seen_faces.h"

#include <Eigen/Geometry>
#include <algorithm>

#include "core/base/parallel.h"
#include "core/tree/point_query.h"

namespace swingroom {
namespace {

using Eigen::AlignedBox3d;
using Eigen::Vector3d;

constexpr double kWallHiddenOffMm = 0.002;
constexpr double kWallLookPieceMm = 1;
constexpr double kWallHiddenPieceMm = 0.1;
constexpr std::size_t kWallHiddenChunk = 64;

TriangleCorners seenCorners(const TriangleMesh& mesh, std::size_t t) {
  return {mesh.corner(t, 0), mesh.corner(t, 1), mesh.corner(t, 2)};
}

AlignedBox3d seenBox(const TriangleCorners& t) {
  AlignedBox3d box;
  for (const Vector3d& corner : t) box.extend(corner);
  return box;
}

class HiddenLook {
 public:
  HiddenLook(const TriangleMesh& mesh, const MeshHealth& health)
      : mesh_(mesh),
        solid_(mesh),
        boxes_(health.shells.size()),
        shellOf_(mesh.triangles.size(), 0) {
    for (std::size_t s = 0; s < boxes_.size(); ++s) {
      for (const std::uint32_t t : health.shells[s].triangles) {
        boxes_[s].extend(seenBox(seenCorners(mesh, t)));
        shellOf_[t] = s;
      }
    }
  }

  /// Adds what can be seen of the triangle.
  void add(std::uint32_t triangle, std::vector<TriangleCorners>& to) const {
    const TriangleCorners whole = seenCorners(mesh_, triangle);
    const std::size_t before = to.size();
    if (!addSeen(whole, triangle, to)) {
      to.resize(before);
      to.push_back(whole);
    }
  }

 private:
  enum class Hidden { no, partly, wholly };

  bool mayBeHidden(const TriangleCorners& t, std::uint32_t triangle) const {
    const AlignedBox3d box = seenBox(t);
    for (std::size_t s = 0; s < boxes_.size(); ++s)
      if (s != shellOf_[triangle] && boxes_[s].intersects(box)) return true;
    return false;
  }

  Hidden hidden(const TriangleCorners& t) const {
    const Vector3d across = (t[1] - t[0]).cross(t[2] - t[0]);
    const double twice = across.norm();
    if (!(twice > 0)) return Hidden::no;
    const Vector3d off = kWallHiddenOffMm / twice * across, middle = (t[0] + t[1] + t[2]) / 3;
    int inside = windingNumber(solid_, middle + off) > 0;
    for (const Vector3d& corner : t)
      inside += windingNumber(solid_, corner + 0.02 * (middle - corner) + off) > 0;
    return inside == 0 ? Hidden::no : inside == 4 ? Hidden::wholly : Hidden::partly;
  }

  /// @returns Whether something of it is left out.
  bool addSeen(const TriangleCorners& t, std::uint32_t triangle,
               std::vector<TriangleCorners>& to) const {
    if (!mayBeHidden(t, triangle)) {
      to.push_back(t);
      return false;
    }
    std::size_t e = 0;
    for (std::size_t i = 1; i < 3; ++i)
      if ((t[(i + 1) % 3] - t[i]).squaredNorm() > (t[(e + 1) % 3] - t[e]).squaredNorm()) e = i;
    const double longestMm = (t[(e + 1) % 3] - t[e]).norm();
    const Hidden state = hidden(t);
    if (longestMm <= kWallLookPieceMm && state == Hidden::wholly) return true;
    const bool small =
        longestMm <= (state == Hidden::partly ? kWallHiddenPieceMm : kWallLookPieceMm);
    if (small) {
      to.push_back(t);
      return false;
    }
    const Vector3d &p = t[e], &q = t[(e + 1) % 3], &r = t[(e + 2) % 3];
    const Vector3d middle = 0.5 * (p + q);
    const std::size_t before = to.size();
    const bool first = addSeen({p, middle, r}, triangle, to);
    const bool second = addSeen({middle, q, r}, triangle, to);
    if (!first && !second) {
      to.resize(before);
      to.push_back(t);
    }
    return first || second;
  }

  const TriangleMesh& mesh_;
  BoundingTree solid_;
  std::vector<AlignedBox3d> boxes_;
  std::vector<std::size_t> shellOf_;
};

}  // namespace

SeenFaces seenFaces(const TriangleMesh& mesh, const MeshHealth& health, unsigned threads) {
  const HiddenLook look(mesh, health);
  const std::size_t count = mesh.triangles.size();
  std::vector<std::vector<TriangleCorners>> kept(count);
  parallelFor((count + kWallHiddenChunk - 1) / kWallHiddenChunk, threads, [&](std::size_t chunk) {
    for (std::size_t i = kWallHiddenChunk * chunk;
         i < std::min(count, kWallHiddenChunk * (chunk + 1)); ++i) {
      const Triangle& t = mesh.triangles[i];
      if (t[0] == t[1] || t[1] == t[2] || t[2] == t[0]) continue;
      look.add(static_cast<std::uint32_t>(i), kept[i]);
    }
  });
  SeenFaces seen;
  for (std::size_t i = 0; i < count; ++i) {
    for (const TriangleCorners& t : kept[i]) {
      const auto first = static_cast<std::uint32_t>(seen.faces.vertices.size());
      seen.faces.vertices.insert(seen.faces.vertices.end(), t.begin(), t.end());
      seen.faces.triangles.push_back({first, first + 1, first + 2});
      seen.triangleOf.push_back(static_cast<std::uint32_t>(i));
    }
  }
  return seen;
}

}  // namespace swingroom
