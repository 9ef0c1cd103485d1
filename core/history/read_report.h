#pragma once

#include <filesystem>
#include <string>

#include "core/base/outcome.h"
#include "core/history/check_figures.h"

namespace swingroom {

/// The figures of a JSON report of `check` (resources/report.schema.json). Keys that later releases
/// may add are passed over.
/// @returns What is wrong with it, with `where` = FILE or FILE#POINTER: the first mistake ends it.
Outcome<CheckFigures> readReport(const std::filesystem::path& file);
/// @param name  What mistakes call it.
Outcome<CheckFigures> parseReport(const std::string& text, const std::string& name);

}  // namespace swingroom
