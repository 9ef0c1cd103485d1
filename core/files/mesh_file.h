#pragma once

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include "core/base/outcome.h"
#include "core/base/work_monitor.h"
#include "core/files/scenes/scene_file.h"
#include "core/files/step/deviation.h"
#include "core/mesh/health.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// A part's surface as read from a file.
struct MeshFile {
  TriangleMesh mesh;                  ///< mm, welded, all objects of the file placed and joined.
  std::string unit;                   ///< Unit of the file's numbers, e.g. "mm", "m".
  bool unitAssumed = false;           ///< The format has no unit: mm was taken.
  std::optional<std::string> colour;  ///< "#RRGGBB", if the file gives exactly one.
  std::vector<std::string> objects;   ///< Names of the objects in the file, if it gives any.
  double deviationMm = 0;  ///< How far the mesh lies from the file's surfaces; 0: it is the surface.
};

struct ReadLimits {
  std::chrono::milliseconds time{20'000};
  std::uint64_t memoryBytes = 3ull << 30;
  std::uint64_t fileBytes = 1ull << 30;
  int stepTimes = 3;  ///< So much more time has a STEP file: its surfaces must be meshed.
};

/// Reads outside mesh files in a child process, so that a hang, an abort or a memory hunger of a format
/// library ends as one `Problem`. Const from several threads.
class MeshReader {
 public:
  /// @param program The reader program (`swingroom-mesh-reader`).
  explicit MeshReader(std::filesystem::path program, ReadLimits limits = {});

  /// With the reader program that stands beside the running program.
  static MeshReader besideThisProgram(ReadLimits limits = {});

  /// STL, OBJ, PLY, glTF, GLB, DAE, 3MF, STEP, chosen by the file's ending. Formats with Y up (glTF, DAE) are
  /// turned to Z up. A result has at least one triangle and only finite numbers.
  /// @param monitor  May be null. Once it is cancelled, reading ends with some problem.
  Outcome<MeshFile> read(const std::filesystem::path& file,
                         const WorkMonitor* monitor = nullptr) const;

  /// The same file as its parts, each in its own frame and placed where it stands; a file with one
  /// surface is one part.
  Outcome<SceneFile> readScene(const std::filesystem::path& file,
                               const WorkMonitor* monitor = nullptr) const;

  /// The same reader, for surfaces to be meshed to within `deviationMm` (STEP).
  MeshReader withDeviation(double deviationMm) const;

  /// Whether the ending is one that `read` knows.
  static bool knows(const std::filesystem::path& file);

 private:
  template <typename Answer>
  Outcome<Answer> ask(const std::filesystem::path& file, const WorkMonitor* monitor) const;

  std::filesystem::path program_;
  ReadLimits limits_;
  double deviationMm_ = kUsualDeviationMm;
};

}  // namespace swingroom
