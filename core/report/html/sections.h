#pragma once

#include <string>

#include "core/report/html/page.h"

/// The page's sections, each a complete <section> or nothing.
namespace swingroom::html {

std::string headline(const ReportPage& page);
std::string modesSection(const ReportPage& page);
std::string findingsSection(const ReportPage& page);
std::string ribbonSection(const ReportPage& page);
std::string pairsSection(const ReportPage& page);
std::string zonesSection(const ReportPage& page);
std::string contactsSection(const ReportPage& page);
/// A row a variant that was checked with the plain file; nothing without them.
std::string variantsSection(const ReportPage& page);
std::string settingsSection(const ReportPage& page);
std::string limitsSection(const ReportPage& page);
std::string cautionsSection();

/// One finding in full; `index` into the page's findings.
std::string findingCard(const ReportPage& page, std::size_t index);
/// One finding on a line.
std::string findingRow(const ReportPage& page, std::size_t index);

/// What to take off so that the required gap is met at the finding's worst place: a block, or
/// nothing.
std::string shaveAdvice(const ReportPage& page, const Occurrence& where);

/// The figure of a finding: "1.24 mm deep", "0.18 mm", with the JSON report's value.
std::string findingFigure(const CheckReport& report, const PairResult& pair);

/// How a way is called: "unfold (folded to reading)", or "mode folded". Escaped.
std::string wayName(const CheckReport& report, std::size_t way);

/// A #RRGGBB colour of the maker's, or grey for anything else.
std::string partColour(const ReportPage& page, PartId part);

}  // namespace swingroom::html
