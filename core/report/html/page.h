#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/files/document/assembly_document.h"
#include "core/report/check_report.h"
#include "core/report/figures.h"
#include "core/report/findings.h"
#include "core/report/pictures.h"

namespace swingroom {

/// All that the page shows.
struct ReportPage {
  const CheckReport* report = nullptr;         ///< Not null, nor the next two.
  const AssemblyDocument* document = nullptr;  ///< What `report->loaded` was made from.
  const ReportFigures* figures = nullptr;
  std::vector<Finding> findings;  ///< Of `findingsOf(*report)`.
  ReportPictures pictures;
  std::string fileName;      ///< Of the assembly file, without folders.
  std::string date;          ///< "2026-01-31"; the page itself asks no clock.
  std::uint64_t budget = 0;  ///< Node tests for a pair of surfaces.
};

/// How many findings get a card; the others are rows.
constexpr std::size_t kMostCards = 20;

/// The report as one HTML file that needs nothing beside it: no scripts, styles, fonts or pictures
/// from elsewhere. The same bytes for the same input.
std::string toHtml(const ReportPage& page);

}  // namespace swingroom
