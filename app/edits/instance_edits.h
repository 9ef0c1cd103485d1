#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "app/edits/mode_edits.h"

/// Edits of which parts there are and where they stand. Each gives a whole new document, which can
/// be read if the one before could, or says why it cannot be.
namespace swingroom::edits {

/// One more part at the list's end. Without a mesh (no stages) it is one that is bought, or carries
/// joints only. A name that is taken gets a number behind it.
Edited addPart(const AssemblyDocument& document, const DocumentPart& part);

/// Where one more of a part stands, mm and quaternion in the assembly frame.
struct Place {
  std::string name;  ///< Empty: the part's own with a number behind it.
  DocumentPlacement placement;

  bool operator==(const Place&) const = default;
};

/// The same files once more for each place, behind the part: its colour, material and everything
/// else are the part's. Names that are taken get a number behind them.
/// @param first  Whether the part itself takes the first place and its name (empty: keeps its own),
///   as a pin does that was exported once and goes into eight holes.
Edited addInstances(const AssemblyDocument& document, const std::string& part,
                    const std::vector<Place>& places, bool first = false);

/// None: where its mesh stands by itself. Joints' axes stay where they are.
Edited placePart(const AssemblyDocument& document, const std::string& part,
                 const std::optional<DocumentPlacement>& placement);

/// With everything that names them: joints that hang them or hang on them, values, moves, pairs,
/// places in modes, what variants put in their place.
Outcome<Removal> removeParts(const AssemblyDocument& document, const std::set<std::string>& parts);

/// One entry of a parts list: what is printed, or bought, from the same thing.
struct PartsListRow {
  std::string file;  ///< Of the stage in use; empty: none.
  bool mirrored = false;
  int count = 0;  ///< With each part's own.
  std::vector<std::string> parts;

  bool operator==(const PartsListRow&) const = default;
};

/// In the order of the parts. Parts of the same file, scale, mirror (as a printed piece: all mirror
/// images are one), colour, material and kind are one row; parts without a mesh a row by name.
std::vector<PartsListRow> partsList(const AssemblyDocument& document);

}  // namespace swingroom::edits
