#pragma once

#include <optional>
#include <vector>

#include "core/base/work_monitor.h"
#include "core/print/subject.h"

namespace swingroom {

/// The rods of EN 71-1 4.10: where the thinner one enters, the thicker one should, too.
struct FingerRods {
  double thinMm = 5;
  double thickMm = 12;  ///< 13 for the pair of ASTM F963 (from memory).
};

/// Whether a finger may be caught in an opening of that size: from the thin rod on, below the thick
/// one.
bool catchesFinger(double gapMm, const FingerRods& rods = {});

enum class FingerPlace {
  hingeMouth,  ///< Two faces that fold together about one hinge: the opening at their rims.
  hingeLine,   ///< Within 12 mm of the line of the hinge between the two.
  between,     ///< Elsewhere.
};

/// An opening between two parts that move against each other, which is between the two rods wide
/// somewhere on a way.
struct FingerGap {
  PartId a, b;
  FingerPlace place = FingerPlace::between;
  std::size_t way = 0;             ///< Index into the subject's ways.
  double from = 0, to = 0;         ///< First and last instant at which it is so wide.
  double leastMm = 0, mostMm = 0;  ///< Its size over the whole way, as far as was looked: `mostMm`
                                   ///< may be the limit of the look, `kFingerLookMm`.
  double instant = 0;              ///< Of the place below.
  Vector3d at_W = Vector3d::Zero();  ///< In the middle of the opening.
  std::size_t spots = 0;             ///< Places of the surface, about 3 mm apart, where it is so.

  bool operator==(const FingerGap&) const = default;
};

/// Openings farther than this are not told apart, mm.
constexpr double kFingerLookMm = 14;

/// Openings of pairs while they move against each other, one for each two groups of parts that are
/// fixed to each other and each way; `a` and `b` are the two parts where it was found. An opening
/// is looked at from spots of the smaller surface: the nearest point of the other part lies in
/// front of the spot and faces it. Faces that fold together about one hinge are one opening, its
/// size that of its rim. It counts if a ball as thick as the thin rod has room in its middle and
/// sees the open air from there along one of 26 straight lines. Spots are about 3 mm apart and at
/// most 3 mm are moved between two looks, so that nothing that opens or closes by the rods'
/// difference is passed over in time; smaller surfaces and bent ways in are not seen. Steps in any
/// order are looked at as if all moved together.
std::vector<FingerGap> fingerGaps(const PrintSubject& subject, const FingerRods& rods,
                                  const WorkMonitor& monitor);

}  // namespace swingroom
