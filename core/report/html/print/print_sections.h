#pragma once

#include <string>

#include "core/report/html/page.h"

/// The page's sections of the print checks, each a complete <section> or nothing; nothing without
/// print checks.
namespace swingroom::html {

/// The headline's second half: a line with its mark.
std::string printLine(const ReportPage& page);

/// All of them, in their order.
std::string printSections(const ReportPage& page);

std::string printFindingsSection(const ReportPage& page);
std::string printedGapsSection(const ReportPage& page);
std::string printersSection(const ReportPage& page);
std::string fitsSection(const ReportPage& page);
std::string gripsSection(const ReportPage& page);
std::string seamsSection(const ReportPage& page);
std::string wallsSection(const ReportPage& page);
std::string holdSection(const ReportPage& page);
std::string standSection(const ReportPage& page);
std::string setSection(const ReportPage& page);
std::string printCautionsSection(const ReportPage& page);
std::string processesSection(const ReportPage& page);

/// Their style.
std::string printStyle();

}  // namespace swingroom::html
