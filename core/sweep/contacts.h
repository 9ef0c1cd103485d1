#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/motion/sequence.h"
#include "core/sweep/part_geometry.h"
#include "core/sweep/plan.h"
#include "core/sweep/result.h"

namespace swingroom {

/// How two parts stand at the place of a contact.
struct ContactReading {
  std::optional<double> gapMm;  ///< Least; none: one of them has no surface there.
  std::optional<double>
      depthMm;  ///< Of the overlap; none: they do not touch, or neither is closed.
};

/// Both surfaces, cut at the contact's place, if it has one, as the parts stand in `standing`.
JudgedSurfaces surfacesAt(const Contact& contact, const Assembly& assembly,
                          const Configuration& standing, const AssemblyGeometry& geometry, PartId a,
                          PartId b);

/// @param X_AB  Pose of the second part in the first. Depth within 0.005 mm.
ContactReading readContact(const JudgedSurfaces& surfaces, const Solid& solidA, const Solid& solidB,
                           const Pose& X_AB);

/// Whether it has to touch, grip or close: a `grip` or `seam` must, a `rest` or `snap` only where
/// it gives a `gap`.
bool isAsked(const Contact& contact);

/// What is wrong with a contact that stands so, in a clause; empty if it is met or not asked. It
/// may be at most its largest `gap` apart (touching, if none is given) and must overlap at least
/// its least `overlap`.
std::string faultOf(const Contact& contact, const ContactReading& reading, double resolutionMm);

/// Contacts of the pair that are not met in the modes at the sequence's ends (verdict `loose`).
std::vector<LooseContact> looseContacts(const Assembly& assembly, const std::vector<Mode>& modes,
                                       const Sequence& sequence, const AssemblyGeometry& geometry,
                                       PartId a, PartId b, double resolutionMm);

}  // namespace swingroom
