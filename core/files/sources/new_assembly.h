#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/files/document/assembly_document.h"
#include "core/files/mesh_file.h"
#include "core/files/scenes/keyed_wish.h"
#include "core/files/sources/made_file.h"
#include "core/files/urdf/robot_wish.h"

namespace swingroom {

/// What an assembly file is to be made from. Wishes that only one kind of source knows stand in a
/// struct of their own, so that command line and window hand them through as they are.
struct NewAssemblyWish {
  std::filesystem::path source;                ///< See `SourceKind`.
  std::optional<std::filesystem::path> other;  ///< The same parts in another mode.
  std::filesystem::path file;                  ///< Where the assembly file will be.
  std::optional<double> mmPerUnit;  ///< For files that say no unit; none: guessed by the size.
  double requiredGapMm = 0.3;
  std::string ground;  ///< The part that stands still; empty: what stands still in both modes.
  std::vector<std::string> only;  ///< Names of the files in a folder that count; empty: all.
  RobotWish robot = {};           ///< What only robot descriptions know.
  /// Of a scene with animations: the moments that are modes.
  std::vector<KeyedModeWish> poses = {};
  double deviationMm = kUsualDeviationMm;  ///< How far meshes of STEP surfaces may lie from them.
  unsigned threads = 1;
  const WorkMonitor* monitor = nullptr;  ///< Once it is cancelled, it ends with some problem.
};

/// An assembly file to start from, not yet saved.
struct NewAssembly {
  AssemblyDocument document;
  std::vector<std::string> found;  ///< What was found, one sentence each, for the maker to read.
  Problems notes;                  ///< What was guessed or did not fit, with its size.
  std::vector<MadeFile> files = {};  ///< To be written before the document is of use.
};

/// Makes an assembly file from what `sourceKindOf` says that the source is. With two modes the
/// parts' placements in both give groups, joints, likely parents, zones and a sequence that moves
/// all joints together; see `inferJoints`. With one: the parts, in one mode, without joints.
/// @returns Problems if a source cannot be read or the two do not hold the same parts: missing,
/// mirrored and changed parts are all named in one go.
Outcome<NewAssembly> newAssembly(const NewAssemblyWish& wish, const MeshReader& reader);

}  // namespace swingroom
