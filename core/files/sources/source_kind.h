#pragma once

#include <filesystem>

#include "core/base/outcome.h"

namespace swingroom {

/// What an assembly can be made from.
enum class SourceKind {
  assembly,  ///< An assembly file, to be written elsewhere or in another size.
  folder,    ///< Of part files, one a part.
  scene,     ///< One file that may hold many parts: any mesh file.
  robot,     ///< A robot description (.urdf).
};

/// By what stands at that place and by its ending; a Problem if there is nothing or nothing that is
/// known.
Outcome<SourceKind> sourceKindOf(const std::filesystem::path& source);

/// The same by the name alone, for a place that may not be reached.
bool isSceneName(const std::filesystem::path& source);

/// Whether files of that name usually hold several parts, so that one of them is not taken for a
/// part file of its folder.
bool mayHoldManyParts(const std::filesystem::path& source);
bool isRobotName(const std::filesystem::path& source);

}  // namespace swingroom
