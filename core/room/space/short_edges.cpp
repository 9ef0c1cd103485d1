#include <Eigen/Geometry>
#include <algorithm>
#include <set>

#include "core/room/space/gone_faces.h"
#include "core/room/space/solid_merge.h"

namespace swingroom {
namespace {

/// Joins the ends of short edges one by one.
class EdgeJoiner {
 public:
  explicit EdgeJoiner(TriangleMesh& mesh) : mesh_(mesh), facesAt_(mesh.vertices.size()) {
    for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t) {
      for (const std::uint32_t v : mesh.triangles[t]) facesAt_[v].push_back(t);
    }
  }

  void run(double shortMm) {
    for (std::uint32_t v = 0; v < mesh_.vertices.size(); ++v) {
      for (std::size_t f = 0; f < facesAt_[v].size(); ++f) {
        const Triangle face = mesh_.triangles[facesAt_[v][f]];
        for (const std::uint32_t other : face) {
          if (other <= v || (mesh_.vertices[other] - mesh_.vertices[v]).norm() >= shortMm) continue;
          if (!join(other, v)) continue;
          f = static_cast<std::size_t>(-1);
          break;
        }
      }
    }
    dropWhatIsGone(mesh_, facesAt_);
  }

 private:
  std::set<std::uint32_t> neighboursOf(std::uint32_t v) const {
    std::set<std::uint32_t> all;
    for (const std::uint32_t t : facesAt_[v]) all.insert(mesh_.triangles[t].begin(), mesh_.triangles[t].end());
    all.erase(v);
    return all;
  }

  bool join(std::uint32_t gone, std::uint32_t stays) {
    const auto a = neighboursOf(gone), b = neighboursOf(stays);
    if (std::count_if(a.begin(), a.end(), [&](std::uint32_t v) { return b.contains(v); }) != 2) return false;
    if (a.size() < 3 || b.size() < 3 || (a.size() == 3 && b.size() == 3)) return false;
    for (const std::uint32_t t : facesAt_[gone]) {
      Triangle& face = mesh_.triangles[t];
      if (std::find(face.begin(), face.end(), stays) != face.end()) {
        for (const std::uint32_t v : face) {
          if (v != gone) std::erase(facesAt_[v], t);
        }
        face = {0, 0, 0};
      } else {
        std::replace(face.begin(), face.end(), gone, stays);
        facesAt_[stays].push_back(t);
      }
    }
    facesAt_[gone].clear();
    return true;
  }

  TriangleMesh& mesh_;
  std::vector<std::vector<std::uint32_t>> facesAt_;
};

}  // namespace

void joinShortEdges(TriangleMesh& mesh, double shortMm) { EdgeJoiner(mesh).run(shortMm); }

}  // namespace swingroom
