#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/work_monitor.h"
#include "core/print/finding.h"
#include "core/print/joints/fits.h"
#include "core/print/subject.h"

namespace swingroom {

/// One `grip` of two parts in one of its modes. Lengths in mm.
struct GripFigure {
  PartId a, b;
  std::size_t contact = 0;  ///< In the pair's rule.
  ModeId mode;
  std::optional<FitSpan> wantedMm;  ///< Overlap that the file states, as modelled, a side.

  /// Gap as modelled; 0: they touch or overlap; none: one has no surface at the grip's place.
  std::optional<double> gapMm;
  bool judged = false;  ///< A part is closed, so that overlap can be told.
  /// lower <= greatest overlap <= upper, a side, as modelled.
  double overlapLowerMm = 0, overlapUpperMm = 0;
  double printedMm = 0;  ///< Overlap with the growth of both parts, a side; below 0: a gap.
  double scatterMm = 0;  ///< Of two prints, plus or minus, a side.

  double areaMm2 =
      0;  ///< Of faces that press on the other part, within about 0.2 mm of their rims.
  std::size_t sides = 0;                 ///< Faces that look different ways.
  double lengthMm = 0;                   ///< Of the largest of them: how long it holds,
  double widthMm = 0;                    ///< and how wide.
  Vector3d at_A = Vector3d::Zero();      ///< Its middle, in A's frame.
  Vector3d press_W = Vector3d::UnitZ();  ///< Out of A there.
  double givesMm = 0;  ///< Material of both along the press; half of what is held from both sides.
  /// Overlap over what gives, if nothing bends out of the way: an upper bound. As modelled,
  /// printed.
  double strain = 0, printedStrain = 0;
  double forceN =
      0;  ///< Across, of the largest face as printed: modulus x strain x area; as bound.

  bool operator==(const GripFigure&) const = default;
};

struct GripsResult {
  std::vector<GripFigure> grips;  ///< In file order of the pairs, contacts and modes.

  bool operator==(const GripsResult&) const = default;
};

/// The same for any number of threads; once `monitor` is cancelled what is answered means nothing.
GripsResult checkGrips(const PrintSubject& subject, WorkMonitor& monitor);

/// - `loose`: the parts do not touch, or overlap less than is stated; a hint where two prints
/// differ
///   by more than the overlap as printed;
/// - `overPressed`: more overlap than is stated, or as modelled more strain than the material takes
///   once. Only as printed it is a hint. Strain is an upper bound: walls bend, limbs give way.
void addGripFindings(const PrintSubject& subject, const GripsResult& result,
                     PrintFindings& findings);

}  // namespace swingroom
