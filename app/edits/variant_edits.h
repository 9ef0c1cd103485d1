#pragma once

#include "app/edits/edit_names.h"

/// Edits of variants: other parts, joints and pairs on the same assembly.
namespace swingroom::edits {

/// Another mesh file for a part.
struct OtherMesh {
  std::string part;
  std::string stage;  ///< That the file is of; the part's one in use if it is empty.
  std::string file;   ///< Relative to the assembly file.
};

/// A new variant, the last, with that part's mesh replaced.
/// Refused: a name that is empty or taken, a part that is not there, a part without a mesh.
Edited addVariant(const AssemblyDocument& document, const std::string& name,
                  const OtherMesh& mesh);

Edited renameVariant(const AssemblyDocument& document, const std::string& name,
                     const std::string& wanted);

Edited removeVariant(const AssemblyDocument& document, const std::string& name);

/// What a variant replaces, in its order: names of parts and joints, "a and b" for pairs.
std::vector<std::string> replacedBy(const AssemblyDocument& document, const std::string& name);

}  // namespace swingroom::edits
