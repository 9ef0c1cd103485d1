#pragma once

#include <filesystem>

#include "core/files/document/assembly_document.h"

namespace swingroom {

/// The document as it is to be written into folder `to`, so that its paths of meshes, those of
/// variants too, and of pictures name the same files as they do from folder `from`. Where there is
/// no relative way between them they become absolute; absolute ones stay.
AssemblyDocument movedDocument(AssemblyDocument document, const std::filesystem::path& from,
                               const std::filesystem::path& to);

/// Mesh files of all parts in the stage that is checked, as they are found from folder `from`; each
/// once, sorted.
std::vector<std::filesystem::path> meshFilesOf(const AssemblyDocument& document,
                                               const std::filesystem::path& from);

}  // namespace swingroom
