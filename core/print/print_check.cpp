#include "core/print/print_check.h"

#include <algorithm>

namespace swingroom {

std::size_t PrintResult::count(PrintGrade grade) const {
  return static_cast<std::size_t>(
      std::count_if(findings.begin(), findings.end(),
                    [&](const PrintFinding& finding) { return finding.grade == grade; }));
}

PrintResult checkPrint(const PrintSubject& subject, WorkMonitor& monitor) {
  PrintResult result;
  std::vector<JointPlay> plays(subject.assembly->joints().size());
  for (std::size_t j = 0; j < plays.size(); ++j) plays[j].joint = JointId{j};
  result.printed = checkPrintedGaps(subject, plays, monitor);
  addPrintedFindings(subject, result.printed, result.findings);
  std::stable_sort(result.findings.begin(), result.findings.end(),
                   [](const PrintFinding& a, const PrintFinding& b) { return a.grade < b.grade; });
  return result;
}

}  // namespace swingroom
