#pragma once

#include <cstddef>

#include "core/base/outcome.h"
#include "core/files/document/assembly_document.h"

namespace swingroom {

/// The whole assembly `factor` times as large: meshes, places, joints, zones, what slides are and
/// where they go in modes and steps, places of contacts and mirror planes, those of variants too,
/// and drawings. Required gaps, fits, play, and how much contacts may overlap or be apart stay as
/// they are: a printer's gaps do not grow with the print.
/// @returns A Problem if `factor` is not finite and above 0, a number would leave the range of the
/// file, or placements cannot be made into joints, whose kind is needed.
Outcome<AssemblyDocument> scaledDocument(const AssemblyDocument& document, double factor);

/// Which parts' meshes change with their unit.
enum class UnitOf {
  all,       ///< Whatever their files say.
  unitless,  ///< Whose files say none: STL, OBJ, PLY.
};

/// Only the meshes `factor` times as large, as if their files were in another unit; all else stays
/// where it is. Mirror planes, which lie in the scaled mesh, go with it.
Outcome<AssemblyDocument> meshesScaled(AssemblyDocument document, double factor, UnitOf which);

/// Whether the part's mesh in use says its unit; false for a part without a mesh.
bool saysUnit(const DocumentPart& part);

/// What a scaled document keeps, by number.
struct KeptSizes {
  double requiredGapMm = 0;
  std::size_t pairGaps = 0;       ///< Pairs with a required gap of their own.
  std::size_t fits = 0;           ///< Joints with a fit.
  std::size_t plays = 0;          ///< Joints with play.
  std::size_t contactRanges = 0;  ///< Contacts with an overlap or a gap.
};
KeptSizes keptSizesOf(const AssemblyDocument& document);

}  // namespace swingroom
