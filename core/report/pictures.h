#pragma once

#include <string>
#include <vector>

#include "core/base/work_monitor.h"
#include "core/files/document/assembly_document.h"
#include "core/report/figures.h"
#include "core/report/findings.h"

namespace swingroom {

/// Pictures as complete <svg> elements; empty where there is nothing to show.
struct ReportPictures {
  std::vector<std::string> modes;     ///< By mode.
  std::vector<std::string> findings;  ///< Of the first findings; fewer than there are.
};

/// Paints every mode, and for the first `most` findings the worst instant close up: the two parts
/// in their colours, the others pale, with the gap's dimension line or the overlap hatched.
/// @param monitor  May be null. Once it is cancelled, pictures are missing.
ReportPictures paintReport(const CheckReport& report, const AssemblyDocument& document,
                           const std::vector<Finding>& findings, std::size_t most,
                           unsigned threads, const WorkMonitor* monitor = nullptr);

}  // namespace swingroom
