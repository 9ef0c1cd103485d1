#include "app/command/new_robot_options.h"

#include <CLI/CLI.hpp>

namespace swingroom {

void addRobotOptions(CLI::App& make, RobotWish& wish) {
  const char* const group = "Robots (URDF)";
  make.add_option_function<std::string>(
          "--geometry",
          [&wish](const std::string& which) { wish.collision = which == "collision"; },
          "Which shapes of the links are taken")
      ->check(CLI::IsMember({"visual", "collision"}))
      ->default_str("visual")
      ->group(group);
  make.add_option_function<std::vector<std::string>>(
          "--package",
          [&wish](const std::vector<std::string>& all) {
            for (const std::string& one : all) {
              const auto equals = one.find('=');
              if (equals == std::string::npos || equals == 0) {
                throw CLI::ValidationError("--package", one + " is not NAME=FOLDER");
              }
              wish.packages[one.substr(0, equals)] = one.substr(equals + 1);
            }
          },
          "Where a package of package:// is: NAME=FOLDER")
      ->take_all()
      ->allow_extra_args(false)
      ->group(group);
  make.add_option("--states", wish.states,
                  "SRDF file whose named states become modes (default: that beside the URDF)")
      ->group(group);
  make.add_option("--pose", wish.poses, "A mode: NAME=joint:value,... in degrees and mm")
      ->allow_extra_args(false)
      ->group(group);
  make.add_flag("--allow-joined", wish.allowJoined,
                "Take parts that a joint joins out of the verdicts")
      ->group(group);
}

}  // namespace swingroom
