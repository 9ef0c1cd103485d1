#pragma once

namespace CLI {
class App;
}

namespace swingroom {

/// Adds `loads FILE -o FOLDER` to the command line: the set to print, laid on beds, a 3MF a colour,
/// with the parts list on standard output. `exitCode` is 0, 1 (a piece fits no bed) or 2 (the reason
/// is on standard error).
void addLoadsCommand(CLI::App& app, int& exitCode);

}  // namespace swingroom
