#pragma once

#include "core/files/sources/new_assembly.h"

namespace swingroom {

/// Writes into each part that comes from a STEP file how far its mesh may lie from the surfaces, so
/// that every later check meshes it alike, and says so in what was found.
void keepDeviation(double deviationMm, NewAssembly& made);

}  // namespace swingroom
