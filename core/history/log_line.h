#pragma once

#include <optional>
#include <string>

#include "core/history/check_log.h"

namespace swingroom {

/// A check as one line of JSON, without the line's end.
std::string toLogLine(const LoggedCheck& check);

/// None: it is no such line. Never throws.
std::optional<LoggedCheck> fromLogLine(const std::string& line);

/// The first line of a log.
/// @param name  Of the assembly file.
std::string logHeading(const std::string& name);
bool isLogHeading(const std::string& line);

}  // namespace swingroom
