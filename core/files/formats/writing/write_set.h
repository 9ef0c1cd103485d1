#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/base/outcome.h"
#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// One shape to print, as often as it is on the bed.
struct SetObject {
  std::string name;
  std::shared_ptr<const TriangleMesh> mesh;             ///< Not null; with triangles; mm.
  std::string material;                                 ///< "PLA"; may be empty.
  std::optional<std::array<std::uint8_t, 3>> rgb = {};  ///< Display colour, sRGB.
  std::vector<Pose> places;                             ///< X_BP of each piece; not empty.
};

/// "#RRGGBB" as numbers; nothing if it is written otherwise.
std::optional<std::array<std::uint8_t, 3>> rgbOf(const std::string& colour);

/// The bytes of a 3MF package (3MF Core Specification 1.2, by lib3mf) of several objects: each with
/// its name, a base material with its display colour, and one build item a place, numbered
/// "NAME 2 of 8". Coordinates are rounded to single precision.
/// @throws std::invalid_argument if an object has no triangles or no places.
Outcome<std::string> threeMfSetBytes(const std::vector<SetObject>& objects,
                                     const std::string& title);

/// Writes it in place of what the file holds: all of it or nothing.
/// @returns What went wrong; nothing if it is there.
std::optional<Problem> writeSet(const std::filesystem::path& file,
                                const std::vector<SetObject>& objects, const std::string& title);

}  // namespace swingroom
