#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>
#include <filesystem>

#include "app/command/check_command.h"
#include "app/command/compare_command.h"
#include "app/command/loads_command.h"
#include "app/command/new_command.h"
#include "app/command/room_command.h"
#include "app/command/testpiece_command.h"
#include "app/command/watch_command.h"
#include "app/window/run_window.h"

namespace {

int run(int argc, char** argv) {
  CLI::App app{"Swingroom: proves that the parts of a printed assembly clear each other on the way between its modes."};
  app.name("swingroom");
  app.require_subcommand(0, 1);
  int exitCode = 0;
  std::string file;
  app.add_option("FILE", file, "Opens the window, on this assembly file or folder of part files");
  swingroom::addCheckCommand(app, exitCode);
  swingroom::addNewCommand(app, exitCode);
  swingroom::addRoomCommand(app, exitCode);
  swingroom::addCompareCommand(app, exitCode);
  swingroom::addWatchCommand(app, exitCode);
  swingroom::addLoadsCommand(app, exitCode);
  swingroom::addTestPieceCommand(app, exitCode);
  try {
    app.parse(argc, argv);
  } catch (const CLI::Success& asked) {
    return app.exit(asked);
  } catch (const CLI::ParseError& error) {
    std::fprintf(stderr, "command line: %s (swingroom --help)\n", error.what());
    return 2;
  }
  if (!app.get_subcommands().empty()) return exitCode;
  if (!file.empty() && !std::filesystem::exists(file)) {
    std::fprintf(stderr, "%s: is neither a command nor a file (swingroom --help)\n", file.c_str());
    return 2;
  }
  return swingroom::runWindow(argc, argv, file);
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "swingroom: %s (this is our mistake: please report it)\n", error.what());
    return 2;
  }
}
