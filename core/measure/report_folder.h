#pragma once

#include <filesystem>
#include <optional>

#include "core/base/outcome.h"
#include "core/report/check_report.h"
#include "core/sweep/sweep.h"

namespace swingroom {

/// The text to `file`, whole; or why not.
std::optional<Problem> writeFile(const std::filesystem::path& file, const std::string& text);

/// Writes report.html, report.json and pairs.csv into `folder`, which is made if it is not there.
/// The page's date is SOURCE_DATE_EPOCH's, if that is set (seconds since 1970), else today's, UTC.
/// @param file  The assembly file that `report` came from.
std::optional<Problem> writeReportFolder(const std::filesystem::path& folder,
                                         const std::filesystem::path& file,
                                         const CheckReport& report,
                                         const AssemblyGeometry& geometry,
                                         const SweepSettings& settings);

}  // namespace swingroom
