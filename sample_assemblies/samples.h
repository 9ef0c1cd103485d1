#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/mesh/triangle_mesh.h"

namespace swingroom::samples {

/// A part's mesh, in the assembly frame with every joint at 0, and the name of its file without
/// ending.
struct PartMesh {
  std::string name;
  TriangleMesh mesh;
};

/// Writes the meshes of hatch_box.swing.json into `folder`.
void makeHatchBox(const std::filesystem::path& folder);

/// Writes the meshes of folding_lamp.swing.json into `folder`/folded and, as they stand in the
/// other mode, `folder`/reading.
void makeFoldingLamp(const std::filesystem::path& folder);

/// Writes the meshes of harbour_tug.swing.json into `folder`/parts, their detail into `folder`/detail.
void makeHarbourTug(const std::filesystem::path& folder);

/// Writes the meshes of harbour_tug_draft.swing.json that are not the tug's own into `folder`/parts.
void makeHarbourTugDraft(const std::filesystem::path& folder);

/// Writes the meshes of harbour_tug_weak.swing.json that are not the tug's own into `folder`/parts.
void makeHarbourTugWeak(const std::filesystem::path& folder);

/// The tug's parts, one a mesh file, as the tug floats; pins about the origin.
std::vector<PartMesh> harbourTugParts();

/// The tug's detail stage: parts that are sculpted, and the other heads.
std::vector<PartMesh> harbourTugDetails();

/// The lamp's parts, folded.
std::vector<PartMesh> foldingLampParts();

}  // namespace swingroom::samples
