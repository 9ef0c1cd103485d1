#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <vector>

#include "core/assembly/assembly.h"
#include "core/base/digest.h"

namespace swingroom {

/// Digests of what is in meshes, bit by bit. A mesh that it has seen is not read again as long as
/// it lives. Safe from several threads.
class MeshDigests {
 public:
  /// By PartId; of a part without a mesh all zeros. Each mesh is read once, 0.5 to 2 GB a second
  /// and thread.
  std::vector<Digest> of(const Assembly& assembly, unsigned threads);

 private:
  struct Known {
    std::weak_ptr<const TriangleMesh> mesh;  ///< Tells a new mesh at the same address.
    Digest digest;
  };
  void forgetTheDead();

  std::mutex mutex_;
  std::map<const TriangleMesh*, Known> known_;
};

Digest digestOf(const TriangleMesh& mesh);

}  // namespace swingroom
