#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/assembly/assembly.h"

namespace swingroom {

/// What is wrong with a print, in our words. Apart from the verdicts of gaps.
enum class PrintWord {
  thinWall,
  thinPin,
  neck,
  thinEdge,  // walls
  tightFit,
  looseFit,
  unwantedFit,
  strained,  // fits and snaps
  loose,
  overPressed,  // grips
  openSeam,
  notFlush,  // seams
  droops,
  fallsOver,
  nearlyFalls,  // weight
  tooLarge,
  needsDrain,  // the set
  closesAsPrinted,
  rubsWithPlay,
  withinScatter,  // as printed
  smallPart,
  smallBall,
  fingerGap,
  sharpEdge  // cautions
};

/// "thin wall", "tight fit", "droops".
const char* wordFor(PrintWord word);

/// A finding fails the print check; a hint is worth knowing.
enum class PrintGrade { finding, hint };

/// One thing that a failed print would have told.
struct PrintFinding {
  PrintWord word = PrintWord::thinWall;
  PrintGrade grade = PrintGrade::finding;
  std::vector<PartId> parts;  ///< One or two, or none: the whole figure.
  std::optional<JointId> joint;
  std::optional<ModeId> mode;
  std::optional<Vector3d> at_P;  ///< Where, in the frame of the first of `parts`, mm.
  /// The figure that decided: it lies between the two; equal if it is exact.
  double lower = 0, upper = 0;
  std::optional<double> needed;  ///< What it is held against.
  std::string unit;              ///< "mm", "deg", "N mm", "N", "%".
  /// One clause for a person, without the parts' names: "0.42 mm thick at its thinnest; 0.80 is
  /// the least that prints".
  std::string sentence;

  bool operator==(const PrintFinding&) const = default;
};

using PrintFindings = std::vector<PrintFinding>;

}  // namespace swingroom
