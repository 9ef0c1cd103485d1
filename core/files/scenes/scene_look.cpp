#include "core/files/scenes/scene_look.h"

#include <algorithm>

#include "core/files/scenes/keyed_motion.h"
#include "core/files/scenes/keyed_pose.h"

namespace swingroom {
namespace {

/// Every keyed time, named by its place among them.
std::vector<KeyedModeWish> timesOf(const SceneAnimation& animation) {
  std::vector<KeyedModeWish> moments;
  for (const double timeS : keyedTimes(animation)) {
    moments.push_back({"mode " + std::to_string(moments.size() + 1), std::nullopt, timeS});
  }
  return moments;
}

std::vector<KeyedModeWish> endsOf(const SceneFile& scene) {
  std::vector<KeyedModeWish> moments;
  for (const SceneAnimation& animation : scene.animations) {
    if (!movesParts(scene, animation)) continue;
    moments.push_back({animation.name, animation.name, keyedTimes(animation).back()});
  }
  return moments;
}

}  // namespace

SceneLook lookAt(const SceneFile& scene) {
  SceneLook look;
  for (const ScenePart& part : scene.parts) look.parts.push_back(part.name);
  look.unitAssumed = scene.unitAssumed;
  const auto together = playedTogether(scene);
  if (together.ok() && movesParts(scene, *together)) {
    look.moments = timesOf(*together);
  } else if (!together.ok()) {
    look.moments = endsOf(scene);
  }
  return look;
}

}  // namespace swingroom
