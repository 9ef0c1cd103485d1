#pragma once

#include <optional>
#include <string>

#include "core/files/document/assembly_document.h"

/// Edits of a document, each giving a whole new one. Parts are named; a name that is not there
/// changes nothing.
namespace swingroom::edits {

/// The pair's own required gap, mm; none: the assembly's counts again.
AssemblyDocument requiredGap(AssemblyDocument document, const std::string& a, const std::string& b,
                             std::optional<double> gapMm);

/// Takes the pair out of the verdicts with a reason, or back into them.
AssemblyDocument allowance(AssemblyDocument document, const std::string& a, const std::string& b,
                           const std::optional<std::string>& reason);

/// One more place where the two may touch.
AssemblyDocument contact(AssemblyDocument document, const std::string& a, const std::string& b,
                         const DocumentContact& contact);
/// Without the pair's contact of that index; one that is not there changes nothing.
AssemblyDocument withoutContact(AssemblyDocument document, const std::string& a,
                                const std::string& b, std::size_t index);

/// "#RRGGBB".
AssemblyDocument colour(AssemblyDocument document, const std::string& part,
                        const std::string& colour);

/// What the document says of a pair, either way round; null: nothing.
const DocumentPair* ruleFor(const AssemblyDocument& document, const std::string& a,
                            const std::string& b);

}  // namespace swingroom::edits
