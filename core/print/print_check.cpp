#include "core/print/print_check.h"

#include <algorithm>

#include "core/print/printed/printer_limits.h"

namespace swingroom {
namespace {

/// Of the most parts; of equals the first.
PrintProcess mainProcessOf(const PrintSubject& subject) {
  const PrintProcess* main = &builtInProcesses().front();
  std::ptrdiff_t most = 0;
  for (const PartPrint& print : subject.parts) {
    if (!print.printed) continue;
    const auto count =
        std::count_if(subject.parts.begin(), subject.parts.end(), [&](const PartPrint& other) {
          return other.printed && other.process.name == print.process.name;
        });
    if (count > most) main = &print.process, most = count;
  }
  return *main;
}

}  // namespace

std::size_t PrintResult::count(PrintGrade grade) const {
  return static_cast<std::size_t>(
      std::count_if(findings.begin(), findings.end(),
                    [&](const PrintFinding& finding) { return finding.grade == grade; }));
}

PrintResult checkPrint(const PrintSubject& subject, WorkMonitor& monitor) {
  PrintResult result;
  result.walls = checkWalls(subject, monitor);
  result.fits = checkFits(subject, monitor);
  result.plays = jointPlays(subject, result.fits);
  result.frictions = jointFrictions(subject, result.fits);
  result.grips = checkGrips(subject, monitor);
  result.seams = checkSeams(subject, monitor);
  result.weight = checkWeight(subject, result.frictions, monitor);
  result.set = printSet(subject, pieceMasses(result.weight.masses), {}, monitor);
  result.firstLayer = firstLayerFits(subject, result.fits, result.set);
  result.printed = checkPrintedGaps(subject, result.plays, monitor);
  result.printers = printerWindow(printerLimits(subject, result.printed, result.fits),
                                  evenGrowthMm(mainProcessOf(subject)));
  result.cautions = checkCautions(subject, monitor);
  addPrintedFindings(result.printed, result.findings);
  addWallFindings(subject, result.walls, result.findings);
  addFitFindings(subject, result.fits, result.findings);
  addGripFindings(subject, result.grips, result.findings);
  addSeamFindings(subject, result.seams, result.findings);
  addWeightFindings(subject, result.weight, result.findings);
  addSetFindings(subject, result.set, result.findings);
  addFirstLayerFindings(result.firstLayer, result.findings);
  addCautionFindings(subject, result.cautions, result.findings);
  std::stable_sort(result.findings.begin(), result.findings.end(),
                   [](const PrintFinding& a, const PrintFinding& b) { return a.grade < b.grade; });
  return result;
}

}  // namespace swingroom
