#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "core/print/process/sourced.h"

namespace swingroom {

enum class PrintMethod { filament, resin, powder };

const char* wordFor(PrintMethod method);

/// What one printer with its settings can do. Lengths in mm; each says whether it is a side or on
/// the diameter.
struct PrintProcess {
  std::string name;  ///< As in assembly files: "filament, 0.4 mm nozzle".
  PrintMethod method = PrintMethod::filament;
  std::string material;  ///< Of parts that name none.

  Sourced spotMm;  ///< Width of the nozzle or of the light's spot.
  Sourced layerMm;

  Sourced leastWallMm;      ///< Supported on two sides or more.
  Sourced leastFreeWallMm;  ///< Free on three sides.
  Sourced leastPinMm;       ///< Diameter of a pin that only has to print.
  Sourced leastJointPinMm;  ///< Diameter of a pin that something turns on.
  Sourced leastHoleMm;      ///< Diameter.

  Sourced leastGapMm;           ///< Between faces that pass each other, as modelled, a side.
  Sourced leastPinClearanceMm;  ///< Of a pin that turns, on the diameter, as modelled.
  Sourced mostPinClearanceMm;   ///< Above it the joint flops; on the diameter, as modelled.
  Sourced firstLayerMm;         ///< What the bed's first layer takes more of a gap.

  Sourced growthOutsideMm;  ///< How much fatter outer faces print, a side.
  Sourced growthInsideMm;   ///< How much faces of slots and cavities come inwards, a side.
  Sourced holeShrinkMm;     ///< How much smaller round holes print, on the diameter.
  Sourced scatterMm;        ///< How far one print's sizes lie from the next's, plus or minus.

  std::array<double, 3> bedMm{0, 0, 0};  ///< Width, depth, height.
  Sourced overhangRad;                   ///< Faces flatter than this against the bed need support.
  Sourced bridgeMm;                      ///< Span that holds itself at both ends; 0: none.
  Sourced escapeHoleMm;  ///< Diameter of a hole that lets what is left inside out; 0: none needed.

  Sourced infill;          ///< Share of the inside that is material, 0 to 1.
  Sourced shellMm;         ///< Thickness of the solid skin.
  double strandMm = 1.75;  ///< Diameter of the filament; 0: none.

  bool operator==(const PrintProcess&) const = default;
};

/// First the one that is taken where an assembly names none that is known.
const std::vector<PrintProcess>& builtInProcesses();

/// By name, whatever its capitals. Null: unknown.
const PrintProcess* findProcess(const std::vector<PrintProcess>& processes, std::string_view name);

}  // namespace swingroom
