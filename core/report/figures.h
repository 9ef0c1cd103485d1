#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/sweep/gap_curve.h"
#include "core/sweep/result.h"

namespace swingroom {

/// How one intended contact stands in one mode, or while one step passes.
struct ContactFigure {
  PartId a, b;
  std::size_t contact = 0;  ///< Index into the contacts of the pair's rule.
  std::optional<ModeId> mode;
  std::string step;  ///< With `way`: where there is no mode.
  std::string way;
  std::optional<double> gapMm;    ///< Least; none: there is no surface at the contact's place.
  std::optional<double> depthMm;  ///< Greatest; none: not overlapping, or not measurable.
  bool judged = false;            ///< Whether it has to touch, grip or close there.
  bool met = true;
  std::string why;  ///< Not met: what is wrong, in a clause.
};

/// A mesh file that parts are made from.
struct MeshFigure {
  std::string file;    ///< As the assembly file writes it.
  std::string sha256;  ///< Of the file's bytes, in hex.
  std::vector<PartId> parts;
  std::size_t triangles = 0;
  std::vector<std::string> notes;  ///< What is wrong or unusual in it.
};

/// On which part the first point of a clash's bracket lies: it is inside the other part, and the
/// second point is where the other part's boundary is nearest.
enum class DeepPointOn { unknown, a, b };

/// What was measured for one pair of one way, beside its result.
struct PairFigures {
  std::vector<GapSample> curve;  ///< By instant; empty: far apart all the way, or standing still.
  DeepPointOn deepPointOn = DeepPointOn::unknown;
};

/// All that a report shows and does not find in the results. Measured by its caller.
struct ReportFigures {
  std::vector<std::vector<PairFigures>> pairs;  ///< By way, then as the results' pairs.
  std::vector<ContactFigure> contacts;
  std::vector<MeshFigure> meshes;
};

}  // namespace swingroom
