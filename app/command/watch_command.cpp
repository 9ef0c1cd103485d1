#include "app/command/watch_command.h"

#include <CLI/CLI.hpp>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <string>

#include "app/command/say.h"
#include "app/command/watcher.h"
#include "core/base/parallel.h"

namespace swingroom {

void addWatchCommand(CLI::App& app, int& exitCode) {
  auto words = std::make_shared<WatchWords>();
  CLI::App* watch =
      app.add_subcommand("watch", "Check, then check again what changes whenever a file is saved");
  watch->add_option("FILE", words->file, "Assembly file (.swing.json)")->required();
  watch->add_option("--threads", words->threads, "How many threads (default: all cores)")
      ->check(CLI::Range(1, 1024));
  watch->add_flag("--no-cache", words->noCache, "Neither use nor keep results of earlier checks");
  watch->add_flag("--no-history", words->noHistory, "Leave these checks out of the log");
  watch->callback([words, &exitCode] {
    if (!std::filesystem::exists(words->file)) {
      say({words->file, "there is no such file", "check its name and folder"});
      exitCode = 2;
      return;
    }
    if (words->threads > 0) setDefaultThreads(words->threads);
    exitCode = runWatch(*words);
  });
}

}  // namespace swingroom
