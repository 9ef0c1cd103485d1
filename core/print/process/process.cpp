#include "core/print/process/process.h"

#include <numbers>

#include "core/print/process/loose_name.h"

namespace swingroom {
namespace {

Sourced sheet(double value) {
  return publishedIn("design rules sheet of a printing service", value);
}

constexpr double kDeg = std::numbers::pi / 180;

/// One nozzle's width apart from the others: walls are whole numbers of line widths, at least two.
PrintProcess filament(const char* name, double nozzleMm, double layerMm) {
  PrintProcess p;
  p.name = name;
  p.method = PrintMethod::filament;
  p.material = "PLA";
  p.spotMm = commonPractice(nozzleMm, "the nozzle's");
  p.layerMm = commonPractice(layerMm, "half the nozzle");
  const double twoLines = 2 * nozzleMm;
  p.leastWallMm = nozzleMm == 0.4 ? sheet(0.8) : commonPractice(twoLines, "two line widths");
  p.leastFreeWallMm = p.leastWallMm;
  p.leastPinMm = sheet(3);
  p.leastJointPinMm = commonPractice(3);
  p.leastHoleMm = sheet(2);
  p.leastGapMm = commonPractice(0.3, "0.4 for files to be sold; services say 0.5");
  p.leastPinClearanceMm = commonPractice(0.3, "pins printed apart: 0.3 to 0.4");
  p.mostPinClearanceMm = commonPractice(0.6);
  p.firstLayerMm = commonPractice(0.25, "0.2 to 0.3");
  p.growthOutsideMm = commonPractice(0.05);
  p.growthInsideMm = commonPractice(0.05);
  p.holeShrinkMm = commonPractice(0.15, "holes come out small by 0.1 to 0.4");
  p.scatterMm = commonPractice(0.1, "a tuned desktop printer; services promise 0.3");
  p.bedMm = {220, 220, 220};
  p.overhangRad = {45 * kDeg, FigureSource::published,
                   "design rules sheets of two printing services"};
  p.bridgeMm = sheet(10);
  p.escapeHoleMm = commonPractice(0, "none needed");
  p.infill = commonPractice(0.15);
  p.shellMm = commonPractice(3 * nozzleMm, "three line widths");
  return p;
}

PrintProcess resinProcess() {
  PrintProcess p;
  p.name = "resin, 0.05 mm layers";
  p.method = PrintMethod::resin;
  p.material = "Resin";
  p.spotMm = commonPractice(0.05, "a pixel's");
  p.layerMm = commonPractice(0.05);
  p.leastWallMm = sheet(0.5);
  p.leastFreeWallMm = sheet(1.0);
  p.leastPinMm = sheet(0.5);
  p.leastJointPinMm = commonPractice(2);
  p.leastHoleMm = sheet(0.5);
  p.leastGapMm = commonPractice(0.2, "0.15 to 0.25; services say 0.5");
  p.leastPinClearanceMm = commonPractice(0.2);
  p.mostPinClearanceMm = commonPractice(0.5);
  p.firstLayerMm = commonPractice(0.2);
  p.growthOutsideMm = commonPractice(0.03);
  p.growthInsideMm = commonPractice(0.03);
  p.holeShrinkMm = commonPractice(0.06);
  p.scatterMm = {0.13, FigureSource::published, "design rules sheet of a printing service"};
  p.bedMm = {130, 80, 160};
  p.overhangRad = {90 * kDeg, FigureSource::published,
                   "design rules sheet of a printing service: support always"};
  p.bridgeMm = commonPractice(0, "support always");
  p.escapeHoleMm = sheet(4);
  p.infill = commonPractice(1, "solid");
  p.shellMm = commonPractice(1);
  p.strandMm = 0;
  return p;
}

PrintProcess powderProcess() {
  PrintProcess p;
  p.name = "powder, sintered";
  p.method = PrintMethod::powder;
  p.material = "PA12";
  p.spotMm = commonPractice(0.4, "the laser's");
  p.layerMm = commonPractice(0.1);
  p.leastWallMm = sheet(0.7);
  p.leastFreeWallMm = sheet(0.7);
  p.leastPinMm = sheet(0.8);
  p.leastJointPinMm = commonPractice(2);
  p.leastHoleMm = sheet(1.5);
  p.leastGapMm = sheet(0.3);
  p.leastPinClearanceMm = commonPractice(0.5, "services: 0.3 radial and more");
  p.mostPinClearanceMm = commonPractice(1.0);
  p.firstLayerMm = commonPractice(0, "no bed");
  p.growthOutsideMm = commonPractice(0.05);
  p.growthInsideMm = commonPractice(0.05);
  p.holeShrinkMm = {0.2, FigureSource::published,
                    "service's sheet: holes of 4 to 50 mm +0.10 / -0.30"};
  p.scatterMm = {0.3, FigureSource::published, "design rules sheet of a printing service"};
  p.bedMm = {200, 250, 330};
  p.overhangRad = {0, FigureSource::published,
                   "design rules sheet of a printing service: no support"};
  p.bridgeMm = commonPractice(1000, "the powder holds it");
  p.escapeHoleMm = sheet(5);
  p.infill = commonPractice(1, "solid");
  p.shellMm = commonPractice(1);
  p.strandMm = 0;
  return p;
}

}  // namespace

const char* wordFor(PrintMethod method) {
  switch (method) {
    case PrintMethod::filament:
      return "filament";
    case PrintMethod::resin:
      return "resin";
    case PrintMethod::powder:
      return "powder";
  }
  return "";
}

const std::vector<PrintProcess>& builtInProcesses() {
  static const std::vector<PrintProcess> processes = {
      filament("filament, 0.4 mm nozzle", 0.4, 0.2),
      filament("filament, 0.25 mm nozzle", 0.25, 0.12),
      filament("filament, 0.6 mm nozzle", 0.6, 0.3), resinProcess(), powderProcess()};
  return processes;
}

const PrintProcess* findProcess(const std::vector<PrintProcess>& processes, std::string_view name) {
  const std::string wanted = looseName(name);
  for (const PrintProcess& process : processes) {
    if (looseName(process.name) == wanted) return &process;
  }
  return nullptr;
}

}  // namespace swingroom
