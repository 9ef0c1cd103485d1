#pragma once

namespace CLI {
class App;
}

namespace swingroom {

/// Adds `compare OLD.json NEW.json` to the command line. When it has run, `exitCode` is 0 (nothing is worse), 1
/// (something is) or 2 (a report cannot be read; the reason is on standard error).
void addCompareCommand(CLI::App& app, int& exitCode);

}  // namespace swingroom
