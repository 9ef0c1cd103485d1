#pragma once

#include <string>

#include "core/report/check_report.h"

namespace swingroom {

/// The JSON report (schema: resources/report.schema.json). The same bytes for the same results: no times,
/// threads, paths or machine in it. Lower bounds rounded down, upper ones up, 6 decimals; degrees and mm.
std::string toJson(const CheckReport& report);

/// One line a pair and sequence, comma separated, with a heading line; where variants are in it, the last column
/// says which, empty for the plain file.
std::string toCsv(const CheckReport& report);

/// What a person reads on a terminal: counts, findings worst first, and how good the figures are.
std::string toSummary(const CheckReport& report);

}  // namespace swingroom
