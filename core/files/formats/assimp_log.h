#pragma once

#include <memory>
#include <optional>

#include "core/base/outcome.h"

namespace swingroom {

/// Listens to Assimp's warnings while it lives. Some damage is only warned of there, and the mesh
/// comes out with holes: those warnings are problems. One at a time in a process: Assimp has one
/// log.
class AssimpLog {
 public:
  AssimpLog();
  ~AssimpLog();
  AssimpLog(const AssimpLog&) = delete;
  AssimpLog& operator=(const AssimpLog&) = delete;

  /// The first warning that means that a part of the mesh is missing.
  std::optional<Problem> problem() const;

 private:
  class Listener;
  std::unique_ptr<Listener> listener_;
};

}  // namespace swingroom
