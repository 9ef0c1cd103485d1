#pragma once

namespace CLI {
class App;
}

namespace swingroom {

/// Adds `testpiece` to the command line: makes the printable test piece, or takes what was felt at a
/// printed one into the maker's own table of printers. `exitCode` is 0, or 2 (the reason is on
/// standard error).
void addTestPieceCommand(CLI::App& app, int& exitCode);

}  // namespace swingroom
