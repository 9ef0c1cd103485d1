#pragma once

#include <string>
#include <vector>

#include "core/print/print_check.h"

namespace swingroom {

/// The print checks of one assembly, as reports show them. Nothing is null.
struct PrintReport {
  const PrintSubject* subject = nullptr;
  const PrintResult* result = nullptr;
};

/// The second half of a headline: "as printed: 2 findings, 5 hints", "as printed: nothing found".
std::string printHeadline(const PrintResult& result);

/// "2 findings, 5 hints", "nothing found".
std::string printOutcome(const PrintResult& result);

/// What a finding is about: "head", "torso and keel", "joint hip port", "the whole figure", and the
/// mode, if it is of one.
std::string printSubjectOf(const PrintSubject& subject, const PrintFinding& finding);

/// For a terminal: the headline, findings, hints, and what was not judged.
std::string printSummary(const PrintReport& report);

}  // namespace swingroom
