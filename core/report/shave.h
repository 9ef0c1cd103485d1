#pragma once

#include <array>
#include <optional>

#include "core/report/check_report.h"
#include "core/report/figures.h"

namespace swingroom {

/// Material to take off one part at one point, going into the part.
struct Cut {
  PartId part;
  Vector3d at_W;
  Vector3d into_W;  ///< Unit.
};

/// What to take off at a finding's worst place so that the gap that is wanted there is met: the
/// whole of it off either part, or shared between them. The least that helps at this one place and
/// instant; others may then be the nearest.
struct Shave {
  double amountMm = 0;           ///< Rounded up to two decimals.
  double wantedGapMm = 0;        ///< The required gap; inside a joint's zones half of its fit.
  std::optional<JointId> fitOf;  ///< The joint whose fit is wanted.
  double instant = 0;
  std::array<Cut, 2> cuts;
};

/// @param deepPointOn  As measured for this pair (`PairFigures`).
/// @returns Nothing where the place or the direction is not known, or nothing has to come off.
std::optional<Shave> shaveFor(const Assembly& assembly, const PairResult& pair,
                              DeepPointOn deepPointOn);

}  // namespace swingroom
