#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/base/outcome.h"
#include "core/base/transform.h"
#include "core/files/step/deviation.h"
#include "core/mesh/features.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// A body of a product, in the product's frame, mm.
struct StepBody {
  TriangleMesh mesh;  ///< Watertight wherever the file's faces share their edges; facing outwards.
  Features features;  ///< Cylinders and spheres as the file has them: exact, residual 0.
  /// Greatest distance found between mesh and surfaces, at 28 points of each triangle and 3 of each
  /// edge's pieces; at most what was asked for, or a note says so.
  double deviationMm = 0;
  bool solid = true;  ///< Otherwise loose surfaces, or a solid that OCCT could not close.
};

/// A body where it stands. Several may show the same body.
struct StepPart {
  std::string name;         ///< Unique: the second "pin" is "pin 2".
  std::size_t body = 0;
  Pose X_WB = Pose::Identity();
  std::optional<std::string> colour;  ///< "#RRGGBB".
};

struct StepFile {
  std::string unit;  ///< Of the file's numbers, as makers write it: "mm", "inch", "m".
  std::vector<StepBody> bodies;
  std::vector<StepPart> parts;
  Problems notes;  ///< `where` is the part or empty for the file.
};

/// Reads a STEP file (ISO 10303-21 by AP203, AP214 or AP242) in this process: each body of each
/// placed product a part. OCCT may crash, hang or take all memory on a damaged file: for the reader
/// program only. In problems `where` is the place in the file, empty for all of it.
/// @param deviationMm  How far the meshes may lie from the surfaces.
/// @param faults  Hears, before they are used, that records make no sense: OCCT reads on, and often
///     enough crashes on them. May be null.
/// A file with such records is refused if a body is missing or not closed; else they are noted.
/// Same file, same bytes: nothing here runs in parallel.
Outcome<StepFile> readStep(const std::filesystem::path& file,
                           double deviationMm = kUsualDeviationMm,
                           const std::function<void(const Problem&)>& faults = nullptr);

}  // namespace swingroom
