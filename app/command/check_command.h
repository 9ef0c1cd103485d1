#pragma once

namespace CLI {
class App;
}

namespace swingroom {

/// Adds `check FILE` to the command line. When it has run, `exitCode` is 0 (every pair clear or allowed), 1 (at
/// least one finding) or 2 (it could not be checked; the reason is on standard error).
void addCheckCommand(CLI::App& app, int& exitCode);

}  // namespace swingroom
