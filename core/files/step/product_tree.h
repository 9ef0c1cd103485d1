#pragma once

#include "core/files/step/step_file.h"
#include "core/files/step/step_words.h"

class TDF_Label;

namespace swingroom {

/// The bodies of a document's products, each meshed once, and the parts that show them, in the
/// order of the file.
/// @param root  Any label of the document.
/// @throws Standard_Failure as OCCT has it.
Outcome<StepFile> readProducts(const TDF_Label& root, const BodyNames& names, double deviationMm);

}  // namespace swingroom
