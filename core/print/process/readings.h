#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/outcome.h"
#include "core/print/process/process.h"
#include "core/print/process/test_piece.h"

namespace swingroom {

/// What a hand felt.
enum class FeltFit { stuck, free, flops };

/// "stuck", "turns" and "flops".
const char* wordFor(FeltFit fit);

/// The pin in one hole, or the tongue in one slot, of a printed test piece.
struct FeltPlace {
  double clearanceMm = 0;  ///< As stated on the piece.
  FeltFit fit = FeltFit::stuck;
};

/// What callipers say of one opening.
struct MeasuredOpening {
  double clearanceMm = 0;  ///< Which: as stated on the piece.
  double acrossMm = 0;     ///< Diameter of the hole, width of the slot.
};

/// What a maker found at a printed test piece. All may be empty: what is not said is not changed.
struct TestReadings {
  std::vector<FeltPlace> pins, tongues;  ///< In any order.
  std::optional<double> pinMm, tongueMm;
  std::optional<MeasuredOpening> hole, slot;
};

/// One figure that the readings gave.
struct ReadFigure {
  Sourced PrintProcess::*figure;
  const char* name = "";        ///< "hole shrink on the diameter".
  double lower = 0, upper = 0;  ///< mm; it lies between. Equal: as callipers say.
  bool lowerKnown = true, upperKnown = true;
};

/// "hole shrink on the diameter: between 0.100 and 0.200 mm".
std::string toText(const ReadFigure& figure);

struct ReadProcess {
  PrintProcess process;  ///< With the figures in it, marked as measured.
  std::vector<ReadFigure> figures;
  std::vector<std::string> notes;  ///< What could not be told, one clause each.
};

/// The process with what the test piece says of it.
///
/// Least pin clearance: the first that turned. Most: the last that did not flop, if one flopped.
/// Least gap a side: half of the first clearance at which the tongue slid. By callipers: growth
/// outside (pin and tongue, their mean), hole shrink, growth inside. Without callipers growth and
/// shrink follow from the middle of the last that was stuck and the first that was free, taking it
/// that a fit is free as soon as printed sizes leave a gap (roughness counts as growth), and of
/// flats that outside and inside grow alike.
///
/// @returns Problems: contradictory readings (a tighter one turned, a wider one stuck), clearances
///     that the piece does not have, callipers that are off by more than 1 mm.
Outcome<ReadProcess> readingsApplied(const PrintProcess& process, const TestPieceWish& piece,
                                     const TestReadings& readings);

}  // namespace swingroom
