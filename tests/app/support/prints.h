#pragma once

#include <memory>

#include "app/session/print/print_board.h"
#include "core/print/process/process_file.h"

namespace swingroom {

/// The built-in tables with a growth of the first process as a maker would have measured it: the
/// same on outer and inner faces, mm a side, and so much scatter.
inline PrintBoard::ReadTables tablesWithGrowth(double growthMm, double scatterMm = 0) {
  return [growthMm, scatterMm]() -> Outcome<PrintTables> {
    PrintTables tables = builtInTables();
    PrintProcess& first = tables.processes.front();
    first.growthOutsideMm = first.growthInsideMm = {growthMm, FigureSource::measured, ""};
    first.scatterMm = {scatterMm, FigureSource::measured, ""};
    return tables;
  };
}

/// Findings of every word and grade that a test asks for, of a scene that was not checked.
inline PrintKnownPtr printKnown(const ScenePtr& scene, PrintFindings findings) {
  auto known = std::make_shared<PrintKnown>();
  known->scene = scene;
  known->asked = printAsked(scene->document, builtInTables(), "test");
  known->result.findings = std::move(findings);
  return known;
}

}  // namespace swingroom
