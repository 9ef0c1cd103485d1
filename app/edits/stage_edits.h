#pragma once

#include <set>
#include <string>
#include <vector>

#include "app/edits/edit_names.h"

/// Edits of which stage of a part's mesh is in use, and of its files.
namespace swingroom::edits {

/// Which stages are in use where there is a choice.
struct StageMix {
  std::size_t withBoth = 0;  ///< Parts that have a block and a detail mesh.
  std::size_t inDetail = 0;  ///< Of those, in use as detail.

  bool isMixed() const { return inDetail > 0 && inDetail < withBoth; }
};
StageMix stageMixOf(const AssemblyDocument& document);

/// Whether the part has a file of that stage.
bool hasStage(const DocumentPart& part, const std::string& stage);

/// Puts that stage in use in the named parts that have it; in all parts if `parts` is empty.
/// Refuses if none of them has it. One whole edit: those that do not have it stay as they are.
Edited useStage(const AssemblyDocument& document, const std::set<std::string>& parts,
                const std::string& stage);

/// Gives a part a mesh file for that stage, in place of one that it had, and puts it in use.
/// @param written  The file's path from the assembly file's folder.
Edited giveStage(const AssemblyDocument& document, const std::string& part, const std::string& stage,
                 const std::string& written);

}  // namespace swingroom::edits
