#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/outcome.h"
#include "core/files/document/assembly_document.h"
#include "core/files/document/document_problems.h"

namespace swingroom {

struct ReadDocument {
  AssemblyDocument document;
  Problems notes;  ///< Unknown keys, which are kept.
};

/// Reads the form of an assembly file: keys, types, words, sizes of numbers. Whether names exist
/// and values make sense is for `loadAssembly`. All mistakes come in one go, except that broken
/// JSON, or a file of another kind or version, ends the reading. Files over 64 MB are refused.
Outcome<ReadDocument> readDocument(const std::filesystem::path& file);

/// The same from text.
/// @param name How messages call the file.
Outcome<ReadDocument> parseDocument(std::string_view text, const std::string& name);

/// The text of an assembly file, or why it cannot be had.
Outcome<std::string> readDocumentText(const std::filesystem::path& file);

/// For a caller who goes on to examine what could be read. What is wrong goes to `problems`, and
/// members in bad form keep their defaults, so that positions in lists are those of the file.
/// @returns Nothing if the text is no assembly file of this version.
std::optional<AssemblyDocument> readForm(std::string_view text, const std::string& name,
                                         DocumentProblems& problems);

}  // namespace swingroom
