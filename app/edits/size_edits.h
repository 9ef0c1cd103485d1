#pragma once

#include "app/edits/edit_names.h"
#include "core/files/document/scaled_document.h"
#include "core/mesh/unit_guess.h"

/// Edits of how large everything is.
namespace swingroom::edits {

/// The whole assembly `factor` times as large; see `scaledDocument` for what stays.
Edited scaled(const AssemblyDocument& document, double factor);

/// The unit that the meshes are in, by the scale of the parts with a mesh whose files say none.
/// None: their scales differ, or are those of no unit.
std::optional<LengthUnit> meshUnit(const AssemblyDocument& document);

/// How many parts have a mesh whose file says its unit, and how many one that does not.
struct UnitCounts {
  int said = 0, unsaid = 0;
};
UnitCounts unitCounts(const AssemblyDocument& document);

/// The numbers of all mesh files that say no unit are in `unit`. Scales that are those of no unit,
/// or differ, are multiplied as if they were in mm.
/// @param withTheRest  Joints, zones and places grow by the same factor: they were made on meshes
/// that had the wrong size. Then files that say their unit grow too.
Edited inUnit(const AssemblyDocument& document, LengthUnit unit, bool withTheRest);

/// By how much `inUnit` makes meshes larger.
double unitFactor(const AssemblyDocument& document, LengthUnit unit);

/// Whether there is anything in mm beside meshes and the size of gaps: joints, places.
bool hasPlaces(const AssemblyDocument& document);

}  // namespace swingroom::edits
