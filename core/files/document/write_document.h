#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "core/base/outcome.h"
#include "core/files/document/assembly_document.h"

namespace swingroom {

/// The canonical text of an assembly file: keys in one order, members named by parts or joints
/// sorted, unknown keys last and sorted, shortest digits, indented by 2. Reading it back gives an
/// equal document, and writing that the same bytes.
/// @throws std::invalid_argument if a number is not finite.
std::string writeDocument(const AssemblyDocument& document);

/// Writes the canonical text to `file` so that either the old or the new content is there, never a
/// part of it, whatever happens on the way. Replaces an existing file: asking first is for the
/// caller.
/// @returns What went wrong; nothing if it is saved.
std::optional<Problem> saveDocument(const AssemblyDocument& document,
                                    const std::filesystem::path& file);

}  // namespace swingroom
