#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/base/outcome.h"
#include "core/files/document/assembly_document.h"
#include "core/files/document/document_problems.h"

namespace swingroom {

/// What a file is when one of its variants stands. An entry of the variant is a JSON Merge Patch
/// (RFC 7396) of the part, joint or pair that it names: keys that it gives replace those there,
/// objects key by key, `null` takes one away, all others stay. Entries keep their place in the
/// lists; a pair that has none yet comes last.
struct VariantDocument {
  std::string name;
  AssemblyDocument document;  ///< Without variants.
  /// Where entries of `document` that the variant touches stand in the file, as JSON pointers:
  /// "/parts/4" in "/variants/0/replace/parts/0".
  std::vector<std::pair<std::string, std::string>> places;
};

/// All that cannot be read comes back in one go, `where` in the file as it is.
/// @param file How messages call the file.
/// A name that no variant has is told with those that there are.
Outcome<VariantDocument> documentOfVariant(const AssemblyDocument& document,
                                           const std::string& variant, const std::string& file);

/// The same for the variant at `index`, with its notes (unknown keys) and mistakes in `problems`.
/// @returns Nothing if there is a mistake.
std::optional<VariantDocument> variantDocument(const AssemblyDocument& document, std::size_t index,
                                               DocumentProblems& problems);

/// Problems of `variant.document` (FILE#/parts/4/use) as they are in the file
/// (FILE#/variants/0/replace/parts/0/use), each saying which variant it is of.
Problems inFile(const VariantDocument& variant, Problems problems);

}  // namespace swingroom
