#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/files/sources/given_parts.h"
#include "core/mesh/unit_guess.h"

namespace swingroom {

/// What was taken as the unit of part files.
struct TakenUnit {
  double mmPerUnit = 1;
  std::optional<UnitGuess> guess;  ///< None: the unit was said, or every file says its own.
  std::vector<PartOff> off;        ///< Parts that stand out by a factor of 1000.
  std::string said;                ///< One sentence for the maker.
  Problems notes;                  ///< What looks wrong: an unsure guess, files in other units.
};

/// Finds the unit of the files that say none, and gives their meshes and `scale` in it.
/// @param given  As read with one mm a unit.
/// @param mmPerUnit  None: it is guessed from the size of all files without a unit together, those
/// that stand out by a factor of 1000 left out.
TakenUnit takeUnit(GivenParts& given, std::optional<double> mmPerUnit);

/// The same for those of another mode: the same parts, so that their sizes tell the unit
/// against `first`, which has its own already. With `mmPerUnit` said it is taken, and that the two
/// are in different units is told in `notes`.
/// @param second  The same parts in the same order, as read with one mm a unit.
TakenUnit takeUnitOfOther(const GivenParts& first, const TakenUnit& firstUnit, GivenParts& second,
                          std::optional<double> mmPerUnit);

}  // namespace swingroom
