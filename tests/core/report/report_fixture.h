#pragma once

#include <memory>

#include "core/report/html/page.h"
#include "tests/support/mechanism.h"

namespace swingroom {

/// A mechanism with all that a report page is made from. Pictures and figures are left empty.
struct ReportCase {
  std::unique_ptr<LoadedAssembly> loaded;
  CheckReport report;
  AssemblyDocument document;
  ReportFigures figures;

  /// Runs the check of `mechanism` in every way.
  explicit ReportCase(const Mechanism& mechanism);
  /// With results of the caller's making.
  ReportCase(const Mechanism& mechanism, std::vector<SequenceResult> results);

  ReportPage page() const;

 private:
  void describe();
};

}  // namespace swingroom
