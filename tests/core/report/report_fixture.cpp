#include "tests/core/report/report_fixture.h"

namespace swingroom {

ReportCase::ReportCase(const Mechanism& mechanism, std::vector<SequenceResult> results)
    : loaded(
          new LoadedAssembly{mechanism.assembly(), mechanism.modes(), {mechanism.sequence()}, {}}),
      report{loaded.get(), 0.01, {}, {}} {
  report.ways.assign(results.size(), mechanism.sequence());
  report.results = std::move(results);
  describe();
}

ReportCase::ReportCase(const Mechanism& mechanism)
    : loaded(
          new LoadedAssembly{mechanism.assembly(), mechanism.modes(), {mechanism.sequence()}, {}}),
      report{loaded.get(), 0.01, waysToCheck(loaded->modes, loaded->sequences), {}} {
  const AssemblyGeometry geometry = prepareGeometry(loaded->assembly, 1);
  SweepSettings settings;
  settings.threads = 1;
  WorkMonitor monitor;
  for (const Sequence& way : report.ways) {
    report.results.push_back(
        sweep(loaded->assembly, loaded->modes, way, geometry, settings, monitor));
  }
  describe();
}

void ReportCase::describe() {
  for (const Part& part : loaded->assembly.parts()) {
    document.parts.emplace_back();
    document.parts.back().name = part.name;
    document.parts.back().colour = "#336699";
  }
  for (const SequenceResult& result : report.results)
    figures.pairs.emplace_back(result.pairs.size());
}

ReportPage ReportCase::page() const {
  ReportPage page;
  page.report = &report;
  page.document = &document;
  page.figures = &figures;
  page.findings = findingsOf(report);
  page.fileName = "case.swing.json";
  page.date = "2026-01-31";
  page.budget = 400'000'000;
  return page;
}

}  // namespace swingroom
