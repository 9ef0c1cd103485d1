#include "core/store/mesh_digests.h"

#include <set>

#include "core/base/parallel.h"

namespace swingroom {

Digest digestOf(const TriangleMesh& mesh) {
  static_assert(sizeof(Eigen::Vector3d) == 3 * sizeof(double));
  static_assert(sizeof(Triangle) == 3 * sizeof(std::uint32_t));
  Hasher hasher;
  const std::uint64_t sizes[] = {mesh.vertices.size(), mesh.triangles.size()};
  hasher.add(sizes, sizeof sizes);
  hasher.add(mesh.vertices.data(), mesh.vertices.size() * sizeof(Eigen::Vector3d));
  hasher.add(mesh.triangles.data(), mesh.triangles.size() * sizeof(Triangle));
  return hasher.take();
}

std::vector<Digest> MeshDigests::of(const Assembly& assembly, unsigned threads) {
  std::vector<std::shared_ptr<const TriangleMesh>> unknown;
  {
    const std::lock_guard lock(mutex_);
    forgetTheDead();
    std::set<const TriangleMesh*> asked;
    for (const Part& part : assembly.parts()) {
      if (!part.mesh || known_.contains(part.mesh.get())) continue;
      if (asked.insert(part.mesh.get()).second) unknown.push_back(part.mesh);
    }
  }
  std::vector<Digest> fresh(unknown.size());
  parallelFor(unknown.size(), threads, [&](std::size_t i) { fresh[i] = digestOf(*unknown[i]); });
  const std::lock_guard lock(mutex_);
  for (std::size_t i = 0; i < unknown.size(); ++i) {
    known_.insert_or_assign(unknown[i].get(), Known{unknown[i], fresh[i]});
  }
  std::vector<Digest> digests;
  for (const Part& part : assembly.parts()) {
    digests.push_back(part.mesh ? known_.at(part.mesh.get()).digest : Digest{});
  }
  return digests;
}

void MeshDigests::forgetTheDead() {
  std::erase_if(known_, [](const auto& entry) { return entry.second.mesh.expired(); });
}

}  // namespace swingroom
