#include "core/files/formats/scene_builder.h"

#include <set>

#include "core/files/formats/hints.h"
#include "core/files/printable.h"
#include "core/mesh/weld.h"

namespace swingroom {
namespace {

constexpr std::size_t kLongestName = 120;

std::string trimmed(const std::string& text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  if (first == std::string::npos) return "";
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

bool isFinite(const TriangleMesh& mesh) {
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    for (int i = 0; i < 3; ++i) {
      if (!mesh.corner(t, i).allFinite()) return false;
    }
  }
  return true;
}

}  // namespace

void SceneBuilder::add(ScenePart part, const std::vector<std::string>& names,
                       const SurfaceKey& key, const std::function<TriangleMesh()>& make) {
  const auto [known, isNew] = surfaces_.try_emplace(key);
  if (isNew) {
    TriangleMesh mesh = make();
    if (!mesh.triangles.empty()) {
      known->second = scene_.surfaces.size();
      scene_.surfaces.push_back({isFinite(mesh) ? welded(mesh) : std::move(mesh), {}});
    }
  }
  if (!known->second) {
    ++empty_;
    return;
  }
  std::string wanted = printable(ownName_, kLongestName);
  for (const std::string& name : names) {
    const std::string readable = printable(trimmed(name), kLongestName);
    if (readable.empty()) continue;
    wanted = readable;
    break;
  }
  part.surface = *known->second;
  scene_.parts.push_back(std::move(part));
  wanted_.push_back(wanted);
}

/// The first that wants a name gets it; others get the next free number.
void SceneBuilder::nameParts() {
  std::set<std::string> taken;
  std::vector<std::size_t> later;
  for (std::size_t i = 0; i < wanted_.size(); ++i) {
    if (taken.insert(wanted_[i]).second) {
      scene_.parts[i].name = wanted_[i];
    } else {
      later.push_back(i);
    }
  }
  std::map<std::string, int> last;
  for (const std::size_t i : later) {
    int& number = last.try_emplace(wanted_[i], 1).first->second;
    do {
      scene_.parts[i].name = wanted_[i] + " " + std::to_string(++number);
    } while (!taken.insert(scene_.parts[i].name).second);
  }
}

Outcome<SceneFile> SceneBuilder::take() {
  if (scene_.parts.empty()) return Problem{"", "has no triangles", "export the mesh again"};
  nameParts();
  Problems problems;
  for (const ScenePart& part : scene_.parts) {
    if (!part.X_SP.matrix().allFinite()) {
      problems.push_back({part.name, "stands at no finite place", kRepairHint});
    } else if (!isFinite(scene_.surfaces[part.surface].mesh)) {
      problems.push_back({part.name, "has a corner that is not at a finite place", kRepairHint});
    }
  }
  if (!problems.empty()) return problems;
  if (empty_ > 0) {
    scene_.notes.push_back({"",
                            "left out " + std::to_string(empty_) +
                                (empty_ == 1 ? " object that has" : " objects that have") +
                                " no triangles",
                            ""});
  }
  return std::move(scene_);
}

}  // namespace swingroom
