#include "app/command/new_scene_options.h"

#include <CLI/CLI.hpp>
#include <string>

namespace swingroom {

void addSceneOptions(CLI::App& make, NewAssemblyWish& wish) {
  make.add_option_function<std::string>(
      "--poses",
      [&wish](const std::string& typed) {
        const auto poses = readKeyedWishes(typed);
        if (!poses) throw CLI::ValidationError("--poses", toText(poses.problems().front()));
        wish.poses = *poses;
      },
      "Of a file with animations: the moments that are modes, as NAME=SECONDS or NAME=ANIMATION, "
      "apart by commas");
}

}  // namespace swingroom
