#include "core/files/scenes/scene_parts.h"

#include <algorithm>

#include "core/files/document/document_problems.h"
#include "core/files/document/json_value.h"

namespace swingroom {

const SceneSurface* findSurface(const SceneFile& scene, const std::string& part) {
  const auto found = std::find_if(scene.parts.begin(), scene.parts.end(),
                                  [&](const ScenePart& other) { return other.name == part; });
  return found == scene.parts.end() ? nullptr : &scene.surfaces[found->surface];
}

const std::string& surfaceName(const SceneFile& scene, const ScenePart& part) {
  return std::find_if(scene.parts.begin(), scene.parts.end(), [&](const ScenePart& other) {
           return other.surface == part.surface;
         })->name;
}

Problem noSuchPart(const SceneFile& scene, const std::string& part) {
  std::vector<std::string> names;
  for (const ScenePart& other : scene.parts) names.push_back(other.name);
  const std::string meant = didYouMean(part, names);
  const std::string has = "the file's parts are " + listed(names);
  return {"", "the file has no part " + inQuotes(part), meant.empty() ? has : meant + "; " + has};
}

}  // namespace swingroom
