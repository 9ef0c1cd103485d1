#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/work_monitor.h"
#include "core/print/finding.h"
#include "core/print/set/bed_fit.h"
#include "core/print/set/bed_loads.h"
#include "core/print/set/hollows.h"
#include "core/print/set/stand.h"
#include "core/print/subject.h"
#include "core/print/weight/part_mass.h"

namespace swingroom {

/// Mass of one piece, g: it lies between the outer two.
struct PieceMass {
  double lowerG = 0, massG = 0, upperG = 0;

  bool operator==(const PieceMass&) const = default;
};

/// One line of the parts list: parts of one mesh that are printed alike.
struct SetItem {
  std::vector<PartId> parts;  ///< Rising, not empty.
  int count = 0;              ///< Pieces in one set: of all its parts.
  std::string name;           ///< The first part's.
  std::string process, material, colour;
  bool printed = true;
  bool hasMesh = false;
  bool isJointPin = false;  ///< Little else than a pin on a joint's axis.
  /// The line whose mirror image it is; none: there is none before it.
  std::optional<std::size_t> mirrorOf;
  Vector3d sizeMm = Vector3d::Zero();  ///< Of its box, as its file has it.
  std::optional<double> volumeMm3;     ///< None: the mesh is not closed.
  std::optional<PieceMass> mass;       ///< None: not known.
  double strandMm = 0;                 ///< Length of filament for a piece; 0: none, or not known.
  BedFit fit;                          ///< `notTold` too if it was not looked at.
  std::vector<BedStand> stands;           ///< Best first, up to three; empty: not looked at.
  std::vector<Hollow> hollows;         ///< Resin and powder.

  bool operator==(const SetItem&) const = default;
};

/// One piece on a bed.
struct LoadedPiece {
  std::size_t item = 0;
  Eigen::Matrix3d R_BP = Eigen::Matrix3d::Identity();
  Vector3d p_BP = Vector3d::Zero();  ///< X_BP; the bed's corner is the origin, its top z = 0.

  Pose X_BP() const {
    Pose X = Pose::Identity();
    X.linear() = R_BP;
    X.translation() = p_BP;
    return X;
  }
  bool operator==(const LoadedPiece&) const = default;
};

/// What is printed in one go: one process, one material, one colour.
struct BedLoad {
  std::string process, material, colour;
  std::vector<LoadedPiece> pieces;

  bool operator==(const BedLoad&) const = default;
};

struct SetTotals {
  std::size_t pieces = 0;   ///< Printed.
  std::size_t bought = 0;   ///< Pieces that are not printed.
  std::size_t notLaid = 0;  ///< Printed pieces that are on no load: too large, or without a mesh.
  std::size_t loads = 0;
  double volumeMm3 = 0;  ///< Of what is known.
  PieceMass mass;        ///< Of what is known.
  double strandMm = 0;
  std::size_t massUnknown = 0;  ///< Pieces that are in none of the three.

  bool operator==(const SetTotals&) const = default;
};

/// The set to print.
struct PrintSet {
  std::vector<SetItem> items;       ///< In the order of the parts.
  std::vector<BedLoad> loads;       ///< One set; by process, material and colour as they come.
  SetTotals totals;                 ///< One set.
  std::size_t assembledPieces = 0;  ///< To be put together, bought ones too.
  std::size_t jointPins = 0;        ///< Pins on joints' axes that are pieces of their own.

  bool operator==(const PrintSet&) const = default;
};

/// As the weight check has them, by PartId; none where it does not know.
std::vector<std::optional<PieceMass>> pieceMasses(const std::vector<PartMass>& masses);

/// @param masses  By PartId, or empty: then a mass is density x volume x (skin and infill), the
/// skin
///     taken as surface x its thickness, between all infill and all solid.
/// Deterministic for any number of threads. After a cancel what is returned means nothing.
PrintSet printSet(const PrintSubject& subject, const std::vector<std::optional<PieceMass>>& masses,
                  const LoadSettings& settings, WorkMonitor& monitor);

/// Totals and number of loads of `sets` figures, packed together.
/// @throws std::invalid_argument if `sets` is not 1 to 10 000.
SetTotals armyTotals(const PrintSubject& subject, const PrintSet& set, int sets,
                     const LoadSettings& settings);

/// `tooLarge` and `needsDrain`.
void addSetFindings(const PrintSubject& subject, const PrintSet& set, PrintFindings& findings);

}  // namespace swingroom
