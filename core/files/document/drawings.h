#pragma once

#include "core/files/document/assembly_document.h"
#include "core/files/document/document_problems.h"
#include "core/files/loading/name_index.h"

namespace swingroom {

/// Tells what is wrong with the drawings: sizes that are none, modes that are not there, two on one
/// view. A picture that is not there is no mistake: the check does not need it.
void checkDrawings(const AssemblyDocument& document, const NameIndex& modes,
                   DocumentProblems& problems);

}  // namespace swingroom
