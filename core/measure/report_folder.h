#pragma once

#include <filesystem>
#include <optional>

#include "core/base/outcome.h"
#include "core/base/work_monitor.h"
#include "core/files/document/assembly_document.h"
#include "core/report/check_report.h"
#include "core/sweep/sweep.h"

namespace swingroom {

/// The text to `file`, whole or not at all; or why not.
std::optional<Problem> writeFile(const std::filesystem::path& file, const std::string& text);

/// What a report folder is made from. Nothing is null.
struct ReportSource {
  const CheckReport* report = nullptr;
  const AssemblyDocument* document = nullptr;  ///< What `report->loaded` was made from.
  const AssemblyGeometry* geometry = nullptr;
  std::filesystem::path file;  ///< The assembly file: mesh paths are relative to it.
};

/// Writes report.html, report.json and pairs.csv into `folder`, which is made if it is not there.
/// Each is whole or not there.
/// @param monitor  May be null. Once it is cancelled, no more is written.
/// The page's date is SOURCE_DATE_EPOCH's, if that is set (seconds since 1970), else today's, UTC.
std::optional<Problem> writeReportFolder(const std::filesystem::path& folder,
                                         const ReportSource& source,
                                         const SweepSettings& settings,
                                         const WorkMonitor* monitor = nullptr);

}  // namespace swingroom
