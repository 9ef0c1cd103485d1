#pragma once

#include <set>
#include <string>
#include <vector>

#include "core/assembly/pair_rule.h"
#include "core/files/document/assembly_document.h"
#include "core/files/document/document_problems.h"
#include "core/files/loading/name_index.h"

namespace swingroom {

/// The pair rules of the file.
/// @param stepNames Of all sequences.
std::vector<PairRule> loadPairs(const AssemblyDocument& document, const NameIndex& parts,
                                const NameIndex& modes, const std::vector<std::string>& stepNames,
                                DocumentProblems& problems);

}  // namespace swingroom
