#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/work_monitor.h"
#include "core/print/finding.h"
#include "core/print/joints/fits.h"
#include "core/print/subject.h"

namespace swingroom {

/// A place of a seam, mm.
struct SeamPoint {
  double alongMm = 0;  ///< From the seam's beginning.
  double gapMm = 0;    ///< Between the two rims along the outer face; below 0: they overlap.
  double stepMm = 0;   ///< Second part's outer face above the first's.
  Vector3d at_W = Vector3d::Zero();  ///< On the first part's rim, as it stands in the mode.

  bool operator==(const SeamPoint&) const = default;
};

/// One line along which the two panels should close, on one face of theirs.
struct SeamLine {
  double lengthMm = 0;
  bool visible = false;  ///< At least half of it is seen from outside.
  double leastGapMm = 0;
  /// lower <= largest gap <= upper, where the gap changes by no more than 1 mm a mm along the rim.
  double gapLowerMm = 0, gapUpperMm = 0;
  Vector3d widest_W = Vector3d::Zero();
  double meanStepMm = 0;     ///< Of its size, along the seam.
  double largestStepMm = 0;  ///< Of its size; found at places at most 0.25 mm apart.
  Vector3d highest_W = Vector3d::Zero();
  std::vector<SeamPoint> profile;  ///< For a picture: at most 0.25 mm apart, and the corners.

  bool operator==(const SeamLine&) const = default;
};

/// One `seam` of two parts in one of its modes.
struct SeamFigure {
  PartId a, b;
  std::size_t contact = 0;  ///< In the pair's rule.
  ModeId mode;
  std::optional<FitSpan> wantedMm;  ///< Gap that the file states, as modelled.
  double growthMm = 0;              ///< What printing takes off the gap.
  double scatterMm = 0;             ///< Of two prints' faces, plus or minus.
  /// Those that are seen from outside first, then the long ones, then what lies outermost. Empty:
  /// no rims face each other within 3 mm; nothing is known of the seam.
  std::vector<SeamLine> lines;

  bool operator==(const SeamFigure&) const = default;
};

struct SeamsResult {
  std::vector<SeamFigure> seams;  ///< In file order of the pairs, contacts and modes.

  bool operator==(const SeamsResult&) const = default;
};

/// The same for any number of threads; once `monitor` is cancelled what is answered means nothing.
/// Rims are sharp edges (35 degrees and more) of both meshes; a rounded rim is not seen.
SeamsResult checkSeams(const PrintSubject& subject, WorkMonitor& monitor);

/// - `openSeam`: the largest gap of a line that is seen is larger than the file states, or without
/// a
///   statement larger as printed than two prints differ by; or no rims face each other;
/// - `notFlush`, a hint: the largest step is more than two prints differ by.
void addSeamFindings(const PrintSubject& subject, const SeamsResult& result,
                     PrintFindings& findings);

}  // namespace swingroom
