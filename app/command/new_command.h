#pragma once

namespace CLI {
class App;
}

namespace swingroom {

/// Adds `new SOURCE [OTHER] -o FILE` to the command line. When it has run, `exitCode` is 0
/// (the file is written) or 2 (it is not; the reason is on standard error).
void addNewCommand(CLI::App& app, int& exitCode);

}  // namespace swingroom
