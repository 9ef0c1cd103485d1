#pragma once

namespace CLI {
class App;
}

namespace swingroom {

/// Adds `swingroom room`; when it was asked for, `exitCode` says how it went.
void addRoomCommand(CLI::App& app, int& exitCode);

}  // namespace swingroom
