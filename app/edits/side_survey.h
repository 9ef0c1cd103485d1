#pragma once

#include <string>
#include <vector>

#include "app/edits/mirror_side.h"
#include "core/assembly/assembly.h"

/// Which parts stand on which side of a plane, with every joint at 0. Reads meshes, so it is asked
/// of an assembly that is loaded.
namespace swingroom::edits {

enum class Side { before, across, behind, nowhere };  ///< Nowhere: a part without a mesh.

struct StandingSide {
  Side side = Side::nowhere;
  double lowMm = 0, highMm = 0;  ///< Least and greatest height over the plane.
};

/// By PartId. A part that only touches the plane stands on one side.
std::vector<StandingSide> sidesOf(const Assembly& assembly, const MirrorPlane& plane);

/// How many parts that stand across the plane are their own reflection in it, as they stand: the
/// plane with the most is likely the one that parts the assembly's sides. Meshes of very many
/// triangles are not looked at.
std::size_t evenParts(const Assembly& assembly, const MirrorPlane& plane);

/// Names of the parts that are to be mirrored unless the maker says otherwise: all on the side that
/// has more of them (of equal sides, the one before the plane), without those that do not carry its
/// word where most of them do.
std::set<std::string> likelySide(const Assembly& assembly, const std::vector<StandingSide>& sides);

/// Of these parts, those that stand as their reflection would by being placed alone: see
/// `mirroredPart`. A mesh of very many triangles is not looked at, and mirrored.
std::set<std::string> ownImagesOf(const Assembly& assembly, const AssemblyDocument& document,
                                  const std::set<std::string>& parts, const MirrorPlane& plane);

/// Parts off the plane that are not of this side.
std::set<std::string> partsAside(const Assembly& assembly, const std::vector<StandingSide>& sides,
                                 const std::set<std::string>& here);

}  // namespace swingroom::edits
