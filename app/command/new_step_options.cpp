#include "app/command/new_step_options.h"

#include <CLI/CLI.hpp>

namespace swingroom {

void addStepOptions(CLI::App& make, NewAssemblyWish& wish) {
  make.add_option("--deviation", wish.deviationMm,
                  "STEP: how far meshes may lie from the file's surfaces, mm")
      ->check(CLI::Range(kLeastDeviationMm, kGreatestDeviationMm))
      ->capture_default_str();
}

}  // namespace swingroom
