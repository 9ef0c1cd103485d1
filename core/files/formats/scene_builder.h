#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "core/files/scenes/scene_file.h"

namespace swingroom {

/// What a walk through a file meets, made into parts: surfaces that are met again are kept once,
/// names are made readable and told apart.
class SceneBuilder {
 public:
  /// What tells one surface from another in its file.
  using SurfaceKey = std::vector<std::uint64_t>;

  /// @param ownName  What parts are called for want of any name, e.g. the file's.
  explicit SceneBuilder(std::string ownName) : ownName_(std::move(ownName)) {}

  /// Adds a part unless its surface has no triangles. @param names  The best first; empty ones do
  /// not count.
  /// @param make  The surface, in mm and its own frame; asked for once a key.
  void add(ScenePart part, const std::vector<std::string>& names, const SurfaceKey& key,
           const std::function<TriangleMesh()>& make);

  /// Parts with their names; other members as they were set. In problems `where` is the part.
  Outcome<SceneFile> take();

  SceneFile& scene() { return scene_; }

 private:
  void nameParts();

  std::string ownName_;
  SceneFile scene_;
  std::vector<std::string> wanted_;  ///< By part.
  std::map<SurfaceKey, std::optional<std::size_t>> surfaces_;
  std::size_t empty_ = 0;
};

}  // namespace swingroom
