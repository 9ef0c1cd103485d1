#pragma once

namespace CLI {
class App;
}

namespace swingroom {

/// Adds `watch FILE` to the command line: checks, then tells in a line what each save by another
/// program has turned, until it is interrupted (SIGINT, SIGTERM). Then `exitCode` is that of the
/// last state: 0, 1 or 2 as of `check`.
void addWatchCommand(CLI::App& app, int& exitCode);

}  // namespace swingroom
