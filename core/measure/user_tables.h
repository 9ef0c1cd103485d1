#pragma once

#include <filesystem>
#include <optional>

#include "core/base/outcome.h"
#include "core/print/process/process_file.h"

namespace swingroom {

/// Where this user's own printers and materials are kept: $XDG_CONFIG_HOME/swingroom/print.json, or
/// with ~/.config (XDG Base Directory Specification). None: neither is known.
std::optional<std::filesystem::path> userTablesFile();

/// The built-in tables with what that file says; without a file the built-in ones.
Outcome<PrintTables> userTables();

/// Writes that file, whole or not at all; its folder is made.
/// @returns Why not: nowhere to keep it, or it cannot be written.
std::optional<Problem> saveUserTables(const PrintTables& tables);

}  // namespace swingroom
