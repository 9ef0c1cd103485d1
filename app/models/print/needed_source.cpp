#include <cmath>

#include "app/models/print/print_rows.h"

namespace swingroom {
namespace {

struct NeededFigure {
  const Sourced* figure;
  double inFindings = 1;  ///< What one of the table's unit is in the finding's.
};

void addProcessFigures(PrintWord word, const PrintProcess& process,
                       std::vector<NeededFigure>& figures) {
  constexpr double kDegARad = 57.29577951308232, kTwoSides = 2;
  switch (word) {
    case PrintWord::thinWall:
    case PrintWord::neck:
    case PrintWord::thinEdge:
      figures.push_back({&process.leastWallMm});
      figures.push_back({&process.leastFreeWallMm});
      return;
    case PrintWord::thinPin:
      figures.push_back({&process.leastPinMm});
      figures.push_back({&process.leastJointPinMm});
      return;
    case PrintWord::tightFit:
      figures.push_back({&process.leastPinClearanceMm});
      figures.push_back({&process.leastGapMm});
      figures.push_back({&process.leastGapMm, kTwoSides});
      return;
    case PrintWord::looseFit:
      figures.push_back({&process.mostPinClearanceMm});
      return;
    case PrintWord::needsDrain:
      figures.push_back({&process.escapeHoleMm});
      figures.push_back({&process.overhangRad, kDegARad});
      return;
    case PrintWord::withinScatter:
      figures.push_back({&process.scatterMm});
      figures.push_back({&process.scatterMm, kTwoSides});
      return;
    default:
      return;
  }
}

void addMaterialFigures(PrintWord word, const Material& material,
                        std::vector<NeededFigure>& figures) {
  constexpr double kPercent = 100;
  if (word != PrintWord::strained && word != PrintWord::overPressed) return;
  figures.push_back({&material.strainOnce, kPercent});
  figures.push_back({&material.strainOften, kPercent});
}

}  // namespace

std::optional<Sourced> sourceOfNeeded(const PrintFinding& finding,
                                      const std::vector<PartPrint>& parts) {
  if (!finding.needed) return std::nullopt;
  std::vector<NeededFigure> figures;
  for (const PartId part : finding.parts) {
    if (!parts.at(part.index).printed) continue;
    addProcessFigures(finding.word, parts[part.index].process, figures);
    addMaterialFigures(finding.word, parts[part.index].material, figures);
  }
  for (const NeededFigure& figure : figures) {
    const double value = figure.figure->value * figure.inFindings;
    if (std::abs(value - *finding.needed) <= 1e-9 * std::max(1.0, std::abs(value)))
      return *figure.figure;
  }
  return std::nullopt;
}

}  // namespace swingroom
