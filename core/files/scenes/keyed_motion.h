#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/files/scenes/keyed_wish.h"
#include "core/files/scenes/scene_file.h"

namespace swingroom {

/// Where all parts' own frames stand at one moment.
struct KeyedStation {
  std::string mode;  ///< Empty: a keyed time between two modes.
  double timeS = 0;
  std::vector<Eigen::Affine3d> X_SPs;  ///< By part.
};

/// The way through the modes in the order wished for.
struct KeyedMotion {
  std::vector<KeyedStation> stations;  ///< The first and the last are modes.
  Problems notes;                      ///< Moments that are no keys.
};

/// Reads the wished moments off a scene's animations. Between two modes of one animation the keyed
/// times are stations too.
/// @param file  Starts the messages.
/// @returns Problems, all in one go: no animation, none that moves a part, one that is not there,
/// times outside the keys, animations that say different things of one time.
Outcome<KeyedMotion> readKeyedMotion(const SceneFile& scene, const std::filesystem::path& file,
                                     const std::vector<KeyedModeWish>& wishes);

/// All animations as one, as they are played together.
/// @returns A Problem, its `where` empty, if two of them move the same thing.
Outcome<SceneAnimation> playedTogether(const SceneFile& scene);

/// Whether an animation moves any part.
bool movesParts(const SceneFile& scene, const SceneAnimation& animation);

/// "2.5 s".
std::string secondsText(double timeS);

}  // namespace swingroom
