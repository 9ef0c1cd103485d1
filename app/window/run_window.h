#pragma once

#include <string>

namespace swingroom {

/// Opens the window, on a file if one is named, and runs until it is closed.
/// @returns The exit code: 0, or 2 if there is no display.
int runWindow(int argc, char** argv, const std::string& file);

}  // namespace swingroom
