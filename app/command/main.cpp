#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>

#include "app/command/check_command.h"
#include "app/command/new_command.h"

namespace {

int run(int argc, char** argv) {
  CLI::App app{"Swingroom: proves that the parts of a printed assembly clear each other on the way between its modes."};
  app.name("swingroom");
  app.require_subcommand(1);
  int exitCode = 0;
  swingroom::addCheckCommand(app, exitCode);
  swingroom::addNewCommand(app, exitCode);
  try {
    app.parse(argc, argv);
  } catch (const CLI::Success& asked) {
    return app.exit(asked);
  } catch (const CLI::ParseError& error) {
    std::fprintf(stderr, "command line: %s (swingroom --help)\n", error.what());
    return 2;
  }
  return exitCode;
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
