#pragma once

#include <string>
#include <vector>

#include "core/motion/sequence.h"
#include "core/sweep/part_geometry.h"

namespace swingroom {

/// Contacts of the pair that do not touch, grip or close as they should in the modes at the sequence's ends
/// (verdict `loose`): one sentence each, empty if all do.
/// A `grip` or `seam` must be at most its largest `gap` apart (the resolution, if none is given) and, with an
/// `overlap`, overlap at least its least; a `rest` or `snap` is looked at only where it gives a `gap`.
std::vector<std::string> looseContacts(const Assembly& assembly, const std::vector<Mode>& modes,
                                       const Sequence& sequence, const AssemblyGeometry& geometry, PartId a, PartId b,
                                       double resolutionMm);

}  // namespace swingroom
