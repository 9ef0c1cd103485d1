#pragma once

#include "core/files/document/assembly_document.h"
#include "core/files/document/document_problems.h"
#include "core/files/loading/name_index.h"

namespace swingroom {

/// Tells variants that replace parts, joints or pairs of parts that the file does not have, and what
/// they put in their place in bad form. Whether it makes sense is told when the variant is loaded
/// (`documentOfVariant`).
void checkVariants(const AssemblyDocument& document, const NameIndex& parts,
                   const NameIndex& joints, DocumentProblems& problems);

}  // namespace swingroom
