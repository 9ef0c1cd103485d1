#pragma once

#include <numbers>
#include <span>

#include "core/print/process/process_file.h"

namespace swingroom {

/// One figure of a process or material in the file: what it is called there and what can be meant.
template <typename Entry>
struct TableKey {
  const char* key;
  Sourced Entry::*figure;
  double least, most;    ///< In the file's unit.
  double inOurUnit = 1;  ///< What one of the file's unit is in ours.
};

constexpr double kMostMm = 5000;
/// Walls, pins, gaps, layers: a figure above is a slip of the unit.
constexpr double kMostFineMm = 50;

/// In the order in which they are written.
inline std::span<const TableKey<PrintProcess>> processKeys() {
  using P = PrintProcess;
  static constexpr double kTiny = 1e-4;
  static constexpr TableKey<P> keys[] = {
      {"spotMm", &P::spotMm, kTiny, kMostFineMm},
      {"layerMm", &P::layerMm, kTiny, kMostFineMm},
      {"leastWallMm", &P::leastWallMm, 0, kMostFineMm},
      {"leastFreeWallMm", &P::leastFreeWallMm, 0, kMostFineMm},
      {"leastPinMm", &P::leastPinMm, 0, kMostFineMm},
      {"leastJointPinMm", &P::leastJointPinMm, 0, kMostFineMm},
      {"leastHoleMm", &P::leastHoleMm, 0, kMostFineMm},
      {"leastGapMm", &P::leastGapMm, 0, kMostFineMm},
      {"leastPinClearanceMm", &P::leastPinClearanceMm, -1, kMostFineMm},
      {"mostPinClearanceMm", &P::mostPinClearanceMm, -1, kMostFineMm},
      {"firstLayerMm", &P::firstLayerMm, 0, kMostFineMm},
      {"growthOutsideMm", &P::growthOutsideMm, -5, 5},
      {"growthInsideMm", &P::growthInsideMm, -5, 5},
      {"holeShrinkMm", &P::holeShrinkMm, -5, 5},
      {"scatterMm", &P::scatterMm, 0, 5},
      {"overhangDeg", &P::overhangRad, 0, 90, std::numbers::pi / 180},
      {"bridgeMm", &P::bridgeMm, 0, kMostMm},
      {"escapeHoleMm", &P::escapeHoleMm, 0, kMostFineMm},
      {"infillShare", &P::infill, 0, 1},
      {"shellMm", &P::shellMm, 0, kMostFineMm},
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
