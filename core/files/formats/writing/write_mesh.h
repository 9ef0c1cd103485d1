#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "core/base/outcome.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// Whether the ending is one that `writeMesh` knows: STL or 3MF, in capitals or not.
bool canWriteMesh(const std::filesystem::path& file);

/// Writes a mesh, in mm, in place of what the file holds: all of it or nothing (`replaceFile`). Coordinates are rounded
/// to single precision. STL is binary; a 3MF has one object, placed as it is.
/// @param name  What the object is called in the file.
/// @returns What went wrong; nothing if it is there.
std::optional<Problem> writeMesh(const std::filesystem::path& file, const TriangleMesh& mesh, const std::string& name);

/// The bytes of a binary STL file.
std::string stlBytes(const TriangleMesh& mesh, const std::string& name);
/// The bytes of a 3MF package (3MF Core Specification 1.2), by lib3mf.
Outcome<std::string> threeMfBytes(const TriangleMesh& mesh, const std::string& name);

}  // namespace swingroom
