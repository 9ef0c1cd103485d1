#include "app/viewport/view_mesh.h"

#include <algorithm>
#include <cmath>

#include "app/viewport/coarse_mesh.h"
#include "core/mesh/weld.h"
#include "core/picture/smoothing.h"

namespace swingroom {
namespace {

/// Above this many triangles only rims and creases are drawn: the rest would be grey mush and cost
/// a frame.
constexpr std::size_t kMostSmoothEdges = 400'000;
constexpr std::size_t kSamples = 600;  ///< A part: enough for the shadow's 128 x 128 blurred cells.

/// Damaged triangles (not finite, absurdly far) are taken away first.
TriangleMesh drawable(const TriangleMesh& mesh) {
  TriangleMesh result = welded(mesh);
  const auto bad = [&](const Triangle& triangle) {
    return std::any_of(triangle.begin(), triangle.end(), [&](std::uint32_t v) {
      return !(result.vertices[v].cwiseAbs().maxCoeff() < 1e9);
    });
  };
  std::erase_if(result.triangles, bad);
  return result;
}

void placeMiddle(const TriangleMesh& mesh, ViewMesh& view) {
  Eigen::AlignedBox3d box;
  for (const Triangle& triangle : mesh.triangles) {
    for (const std::uint32_t v : triangle) box.extend(mesh.vertices[v]);
  }
  if (box.isEmpty()) return;
  view.middle = box.center();
  for (const Triangle& triangle : mesh.triangles) {
    for (const std::uint32_t v : triangle) {
      view.radiusMm = std::max(view.radiusMm, (mesh.vertices[v] - view.middle).norm());
    }
  }
}

/// One vertex for each corner point of each smooth face.
void addVertices(const TriangleMesh& mesh, const Smoothing& smoothing, ViewMesh& view) {
  struct Use {
    std::uint64_t vertexOfFace;
    std::uint32_t corner;
  };
  std::vector<Use> uses;
  uses.reserve(3 * mesh.triangles.size());
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
    for (std::size_t k = 0; k < 3; ++k) {
      uses.push_back({std::uint64_t{mesh.triangles[i][k]} << 32 | smoothing.faces[i],
                      static_cast<std::uint32_t>(3 * i + k)});
    }
  }
  std::sort(uses.begin(), uses.end(),
            [](const Use& a, const Use& b) { return a.vertexOfFace < b.vertexOfFace; });
  view.indices.resize(uses.size());
  for (std::size_t i = 0; i < uses.size(); ++i) {
    if (i == 0 || uses[i].vertexOfFace != uses[i - 1].vertexOfFace) {
      const std::size_t triangle = uses[i].corner / 3, k = uses[i].corner % 3;
      view.vertices.push_back(
          {view.corners[mesh.triangles[triangle][k]], smoothing.corners[triangle][k]});
    }
    view.indices[uses[i].corner] = static_cast<std::uint32_t>(view.vertices.size() - 1);
  }
}

double sixVolumes(const ViewMesh& view, const TriangleMesh& mesh) {
  double sum = 0;
  for (const Triangle& t : mesh.triangles) {
    sum +=
        static_cast<double>(view.corners[t[0]].dot(view.corners[t[1]].cross(view.corners[t[2]])));
  }
  return sum;
}

void addEdges(const TriangleMesh& mesh, const Smoothing& smoothing, ViewMesh& view) {
  struct Side {
    std::uint64_t ends;
    std::uint32_t triangle;
  };
  std::vector<Side> sides;
  sides.reserve(3 * mesh.triangles.size());
  for (std::uint32_t i = 0; i < mesh.triangles.size(); ++i) {
    for (std::size_t k = 0; k < 3; ++k) {
      const auto [low, high] = std::minmax({mesh.triangles[i][k], mesh.triangles[i][(k + 1) % 3]});
      if (low != high) sides.push_back({std::uint64_t{low} << 32 | high, i});
    }
  }
  std::sort(sides.begin(), sides.end(), [](const Side& a, const Side& b) {
    return a.ends != b.ends ? a.ends < b.ends : a.triangle < b.triangle;
  });
  bool closed = true;
  const bool smoothToo = mesh.triangles.size() <= kMostSmoothEdges;
  for (std::size_t i = 0; i < sides.size();) {
    std::size_t end = i + 1;
    while (end < sides.size() && sides[end].ends == sides[i].ends) ++end;
    closed = closed && end - i == 2;
    const std::uint32_t left = sides[i].triangle, right = sides[end - 1].triangle;
    const bool feature = left == right || smoothing.faces[left] != smoothing.faces[right];
    if (feature || smoothToo) {
      view.edges.push_back({static_cast<std::uint32_t>(sides[i].ends >> 32),
                            static_cast<std::uint32_t>(sides[i].ends), left, right, feature});
    }
    i = end;
  }
  view.sealed = closed && sixVolumes(view, mesh) > 0;
}

/// Every sampleMm2 of area along the list of triangles gives a point; its place in the triangle
/// follows a sequence of low discrepancy, folded into the triangle. Roberts' R2 sequence (from
/// memory).
void addSamples(const TriangleMesh& mesh, ViewMesh& view) {
  std::vector<double> areas;
  double total = 0;
  for (const Triangle& t : mesh.triangles) {
    const Vector3d a = mesh.vertices[t[0]];
    areas.push_back(0.5 * (mesh.vertices[t[1]] - a).cross(mesh.vertices[t[2]] - a).norm());
    total += areas.back();
  }
  if (!(total > 0)) return;
  view.sampleMm2 = total / kSamples;
  double passed = 0.5 * view.sampleMm2;
  double u = 0.5, v = 0.5;
  for (std::size_t i = 0; i < areas.size(); ++i) {
    for (passed += areas[i]; passed >= view.sampleMm2; passed -= view.sampleMm2) {
      u = std::fmod(u + 0.7548776662466927, 1.0), v = std::fmod(v + 0.5698402909980532, 1.0);
      const bool over = u + v > 1;
      const auto s = static_cast<float>(over ? 1 - u : u), r = static_cast<float>(over ? 1 - v : v);
      const auto& t = mesh.triangles[i];
      const Eigen::Vector3f& a = view.corners[t[0]];
      view.samples.push_back(a + s * (view.corners[t[1]] - a) + r * (view.corners[t[2]] - a));
    }
  }
}

}  // namespace

ViewMesh makeViewMesh(const TriangleMesh& loose) {
  const TriangleMesh mesh = drawable(loose);
  ViewMesh view;
  placeMiddle(mesh, view);
  for (const Vector3d& vertex : mesh.vertices) {
    view.corners.push_back((vertex - view.middle).cast<float>());
  }
  view.triangles = mesh.triangles;
  const Smoothing smoothing = smoothed(mesh);
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
    const Eigen::Vector3f& n = smoothing.flat[i];
    const float offset = n.dot(view.corners[mesh.triangles[i][0]]);
    view.planes.emplace_back(n.x(), n.y(), n.z(), offset);
  }
  addVertices(mesh, smoothing, view);
  addEdges(mesh, smoothing, view);
  addSamples(mesh, view);
  view.coarse = coarsened(view.vertices, view.indices);
  view.outline = outlineOf(view.corners);
  return view;
}

}  // namespace swingroom
