#include "app/command/new_options.h"

#include <CLI/CLI.hpp>
#include <map>
#include <string>

#include "core/base/parallel.h"

namespace swingroom {
namespace {

/// None: it is guessed.
const std::map<std::string, std::optional<double>>& mmPerUnit() {
  static const std::map<std::string, std::optional<double>> units{
      {"auto", std::nullopt}, {"mm", 1}, {"cm", 10}, {"m", 1000}, {"in", 25.4}};
  return units;
}

}  // namespace

void addSharedOptions(CLI::App& make, NewAssemblyWish& wish) {
  make.add_option_function<std::string>(
          "--unit",
          [&wish](const std::string& unit) { wish.mmPerUnit = mmPerUnit().at(unit); },
          "Unit of files that say none; auto: guessed by the size")
      ->check(CLI::IsMember(mmPerUnit()))
      ->default_str("auto");
  make.add_option("--ground", wish.ground, "The part that stands still");
  make.add_option("--gap", wish.requiredGapMm, "Required gap, mm")
      ->check(CLI::Range(0.0, 50.0))
      ->capture_default_str();
  wish.threads = defaultThreads();
  make.add_option("--threads", wish.threads, "How many threads (default: all cores)")
      ->check(CLI::Range(1, 1024));
}

}  // namespace swingroom
