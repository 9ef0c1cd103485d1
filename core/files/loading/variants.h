#pragma once

#include "core/files/document/assembly_document.h"
#include "core/files/document/document_problems.h"
#include "core/files/loading/name_index.h"

namespace swingroom {

/// Tells variants that replace parts, joints or pairs of parts that the file does not have. What
/// they put in their place is kept, but not read yet.
void checkVariants(const AssemblyDocument& document, const NameIndex& parts,
                   const NameIndex& joints, DocumentProblems& problems);

}  // namespace swingroom
