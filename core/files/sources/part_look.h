#pragma once

#include "core/files/sources/given_unit.h"
#include "core/files/sources/part_folder.h"

namespace swingroom {

/// A part before an assembly is made of it.
struct PartLook {
  std::string name;
  std::string colour;        ///< "#RRGGBB", its own or the one that it would get.
  Eigen::Vector3d sizes_mm;  ///< Along x, y, z, in the unit that was taken.
  std::size_t triangles = 0;
  bool closed = false;  ///< Inside and outside are defined.
  std::size_t openEdges = 0;
  std::vector<std::string>
      notes;                 ///< As `healthNotes` has them, and its scale if that looks wrong.
  bool unitAssumed = false;  ///< Its file says none.
};

struct PartsLook {
  std::vector<PartLook> parts;
  TakenUnit unit;
  Eigen::Vector3d sizes_mm = Eigen::Vector3d::Zero();  ///< Of all together.
};

/// Reads the parts of a folder or file and looks at each: size, triangles, holes. The unit is
/// guessed.
Outcome<PartsLook> lookAtParts(const std::filesystem::path& source, const MeshReader& reader,
                               unsigned threads, const PartChoice& choice = {});

}  // namespace swingroom
