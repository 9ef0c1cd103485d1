#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include "core/files/loading/load_parts.h"
#include "core/stages/stage_notes.h"

namespace swingroom {

/// The two stages that are held against each other.
inline const std::string kBlockStage = "block";
inline const std::string kDetailStage = "detail";

/// Whether the part has a file for both.
bool hasBothStages(const DocumentPart& part);

/// The document with that stage in use by all parts that have it.
AssemblyDocument withStage(const AssemblyDocument& document, const std::string& stage);

/// Both meshes of a part, scaled and mirrored as it is. Null: that file cannot be read.
struct StageMeshes {
  std::shared_ptr<const TriangleMesh> block, detail;
};

/// Of all parts that have both, by their position in the document; of others nulls.
/// @param file  The assembly file: mesh paths are relative to it.
std::vector<StageMeshes> loadBothStages(const AssemblyDocument& document,
                                        const std::filesystem::path& file, const MeshSource& source);

/// How messages name the part's detail file: as it is written.
std::string detailFileOf(const DocumentPart& part);

/// Each detail mesh that is in use held against its block: what is told before any gap is.
/// @param assembly  What was made of the document.
/// Cost: some tenths of a second a part of 50 000 triangles and core.
Problems stageNotesOf(const AssemblyDocument& document, const std::filesystem::path& file,
                      const Assembly& assembly, const MeshSource& source);

}  // namespace swingroom
