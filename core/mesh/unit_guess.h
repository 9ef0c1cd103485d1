#pragma once

#include <Eigen/Geometry>
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "core/mesh/triangle_mesh.h"

/// The unit of mesh files that do not say theirs, from how large the figure is in it.
namespace swingroom {

enum class LengthUnit { mm, cm, m, inch };

constexpr std::array<LengthUnit, 4> kLengthUnits{LengthUnit::mm, LengthUnit::cm, LengthUnit::m,
                                                 LengthUnit::inch};

double mmPer(LengthUnit unit);

/// "mm", "cm", "m", "inches".
std::string nameOf(LengthUnit unit);

/// A unit, and how far it is to be trusted.
struct UnitGuess {
  LengthUnit unit = LengthUnit::mm;
  /// The figure's size in it is usual for printed figures, and in no other unit nearly as usual.
  bool sure = false;
  /// mm was kept because these two are about as likely as each other, the likelier one first.
  std::optional<std::array<LengthUnit, 2>> between;
  Eigen::Vector3d sizes = Eigen::Vector3d::Zero();  ///< Of the figure, in units of its files.

  /// The figure's longest side if the unit were `asUnit`.
  double longestMm(LengthUnit asUnit) const { return sizes.maxCoeff() * mmPer(asUnit); }
};

/// mm if the longest side is then 20 to 600 mm. Otherwise the unit that brings it nearest to the
/// palm-sized 110 mm in ratio, if it is then 20 to 600 mm and another unit's size is not about as
/// near (by a factor of 1.5); else mm is kept. Sure only from 30 to 450 mm: a figure of 230 mm in
/// inches measures 9 units, as one of 90 mm in cm does, so that no size proves a unit.
/// @param sizes  Of the whole figure along x, y, z, in units of its files.
UnitGuess guessUnit(const Eigen::Vector3d& sizes);

/// "108 x 44 x 61 units: mm guessed; in cm it would be 1080 mm at the longest, in inches 2743 mm".
std::string guessText(const UnitGuess& guess);

/// mm as words show sizes of whole figures: "2743", "110", "43.2", "0.11".
std::string roundSize(double size);

/// A part whose file seems to be in a unit 1000 times larger or smaller than the others'.
struct PartOff {
  std::size_t part = 0;
  double factor = 1;  ///< What its numbers are to be multiplied by: 1000 or 0.001.
};

/// The fewer of two groups of parts that differ in size by a factor of 20 or more, if they would be
/// of the others' sizes when multiplied so. Pins a hundred times shorter than a plate are none.
std::vector<PartOff> partsOff(const std::vector<Eigen::AlignedBox3d>& boxes);

/// By how much larger `other` is than `mesh`, the same part wherever it stands: by the square root
/// of the areas. None: one of them has no area.
std::optional<double> scaleBetween(const TriangleMesh& mesh, const TriangleMesh& other);

/// The exact ratio of two units that `ratio` is to within 1 %; none: 1, or no ratio of units.
std::optional<double> ratioOfUnits(double ratio);

}  // namespace swingroom
