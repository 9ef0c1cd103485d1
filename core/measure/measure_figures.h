#pragma once

#include <filesystem>

#include "core/base/work_monitor.h"
#include "core/files/document/assembly_document.h"
#include "core/report/check_report.h"
#include "core/report/figures.h"
#include "core/report/findings.h"
#include "core/sweep/part_geometry.h"

namespace swingroom {

/// Measures what the report shows beside the results: gap curves, contacts, hashes of mesh files.
/// The same for any number of threads.
/// @param monitor  May be null. Once it is cancelled, what is answered means nothing.
/// @param folder  The assembly file's: mesh paths are relative to it.
ReportFigures measureFigures(const CheckReport& report, const AssemblyDocument& document,
                             const std::filesystem::path& folder, const AssemblyGeometry& geometry,
                             const std::vector<Finding>& findings, std::size_t cards,
                             unsigned threads, const WorkMonitor* monitor = nullptr);

/// How each intended contact stands in the modes at the ways' ends, and while the steps that it
/// names pass.
std::vector<ContactFigure> measureContacts(const CheckReport& report,
                                           const AssemblyGeometry& geometry);

}  // namespace swingroom
