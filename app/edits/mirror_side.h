#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "app/edits/mirror_plane.h"
#include "app/edits/mode_edits.h"
#include "app/edits/side_names.h"

/// The other side of an assembly, made from one of its sides: an edit as the others are.
namespace swingroom::edits {

struct SideWish {
  std::set<std::string> parts;  ///< Of this side; each gets a reflection.
  MirrorPlane plane{{0, 0, 0}, {0, 1, 0}};
  SideWords words{"", "starboard"};
  /// Parts whose mesh is its own image (`mirroredPart`): they are placed, not mirrored.
  std::set<std::string> ownImages;
  /// Parts that stand off the plane and have no other side: rules of pairs with them stay on this
  /// side. What hangs on this side alone is one of them by itself.
  std::set<std::string> aside;
  /// Hinges and slides of the other side follow those of this side in place of having values.
  bool follow = false;
};

/// What was made, and what was there already, by name.
struct MirroredSide {
  AssemblyDocument document;
  std::vector<std::string> parts, joints;
  std::size_t rules = 0;             ///< Of pairs.
  std::vector<std::string> renamed;  ///< What now carries this side's word: `"hip" "hip port"`.
  std::vector<std::string> left;     ///< Was there already and is as it was.
  std::vector<std::string> also;     ///< What else is to be known, a clause each.
};

/// Makes for each part a mirrored instance of the same file, for each joint that hangs one a joint
/// by which equal values mean mirrored motion (a hinge's axis is reflected as a turn's, a slide's
/// as a direction; a ball's rotation vectors are reflected), with zones, range, clicks and fit;
/// values in modes and moves in steps; steps of the hand; rules of pairs. A part or joint of the
/// other side that is there already stays as it is. One step may then move both sides.
/// @returns Why not: no part, a part that is not there, no word for the other side.
Outcome<MirroredSide> mirrorSide(const AssemblyDocument& document, const SideWish& wish);

/// A joint's reflection, its name and parts apart.
DocumentJoint mirroredJoint(const DocumentJoint& joint, const MirrorPlane& plane);
/// Where the reflected joint stands as this one does.
DocumentValue mirroredValue(const DocumentValue& value, const MirrorPlane& plane);

}  // namespace swingroom::edits
