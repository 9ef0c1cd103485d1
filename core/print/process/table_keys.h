#pragma once

#include <numbers>
#include <span>

#include "core/print/process/process_file.h"

namespace swingroom {

/// What a length of the tables is measured on.
enum class FigureOf { plain, side, diameter };

/// One figure of a process or material in the file: what it is called there and what can be meant.
template <typename Entry>
struct TableKey {
  const char* key;
  Sourced Entry::*figure;
  double least, most;    ///< In the file's unit.
  FigureOf of = FigureOf::plain;
  double inOurUnit = 1;  ///< What one of the file's unit is in ours.
};

constexpr double kMostInTablesMm = 5000;
/// Walls, pins, gaps, layers: a figure above is a slip of the unit.
constexpr double kMostFineInTablesMm = 50;

/// In the order in which they are written.
inline std::span<const TableKey<PrintProcess>> processKeys() {
  using P = PrintProcess;
  static constexpr double kTiny = 1e-4;
  static constexpr TableKey<P> keys[] = {
      {"spotMm", &P::spotMm, kTiny, kMostFineInTablesMm},
      {"layerMm", &P::layerMm, kTiny, kMostFineInTablesMm},
      {"leastWallMm", &P::leastWallMm, 0, kMostFineInTablesMm},
      {"leastFreeWallMm", &P::leastFreeWallMm, 0, kMostFineInTablesMm},
      {"leastPinMm", &P::leastPinMm, 0, kMostFineInTablesMm, FigureOf::diameter},
      {"leastJointPinMm", &P::leastJointPinMm, 0, kMostFineInTablesMm, FigureOf::diameter},
      {"leastHoleMm", &P::leastHoleMm, 0, kMostFineInTablesMm, FigureOf::diameter},
      {"leastGapMm", &P::leastGapMm, 0, kMostFineInTablesMm, FigureOf::side},
      {"leastPinClearanceMm", &P::leastPinClearanceMm, -1, kMostFineInTablesMm, FigureOf::diameter},
      {"mostPinClearanceMm", &P::mostPinClearanceMm, -1, kMostFineInTablesMm, FigureOf::diameter},
      {"firstLayerMm", &P::firstLayerMm, 0, kMostFineInTablesMm},
      {"growthOutsideMm", &P::growthOutsideMm, -5, 5, FigureOf::side},
      {"growthInsideMm", &P::growthInsideMm, -5, 5, FigureOf::side},
      {"holeShrinkMm", &P::holeShrinkMm, -5, 5, FigureOf::diameter},
      {"scatterMm", &P::scatterMm, 0, 5},
      {"overhangDeg", &P::overhangRad, 0, 90, FigureOf::plain, std::numbers::pi / 180},
      {"bridgeMm", &P::bridgeMm, 0, kMostInTablesMm},
      {"escapeHoleMm", &P::escapeHoleMm, 0, kMostFineInTablesMm, FigureOf::diameter},
      {"infillShare", &P::infill, 0, 1},
      {"shellMm", &P::shellMm, 0, kMostFineInTablesMm},
  };
  return keys;
}

inline std::span<const TableKey<Material>> materialKeys() {
  using M = Material;
  static constexpr TableKey<M> keys[] = {
      {"densityGPerCm3", &M::densityGPerCm3, 0.01, 30},
      {"modulusMPa", &M::modulusMPa, 0.01, 1e6},
      {"poisson", &M::poisson, 0, 0.5},
      {"strainOnce", &M::strainOnce, 0, 10},
      {"strainOften", &M::strainOften, 0, 10},
      {"frictionLow", &M::frictionLow, 0, 10},
      {"frictionHigh", &M::frictionHigh, 0, 10},
  };
  return keys;
}

}  // namespace swingroom
