#pragma once

#include "app/edits/edit_names.h"
#include "app/edits/written_motion.h"

/// Edits of modes: a document in, a whole new one out, or why it cannot be.
namespace swingroom::edits {

/// A new document, and what else went with what was removed, a sentence each.
struct Removal {
  AssemblyDocument document;
  std::vector<std::string> also;
};

/// One more mode, with values of every joint that holds as the assembly stands, and its mounts.
Edited addMode(const AssemblyDocument& document, const std::string& name,
               const WrittenStanding& standing);

/// In every place that names it: ways, contacts, variants.
Edited renameMode(const AssemblyDocument& document, const std::string& name,
                  const std::string& wanted);

/// Behind the first. Contacts that cover the one cover the other.
/// @param copy  A free name.
Edited duplicateMode(const AssemblyDocument& document, const std::string& name,
                     const std::string& copy);

/// With the ways that start or end in it and the contacts that covered nothing else.
Outcome<Removal> removeMode(const AssemblyDocument& document, const std::string& name);

/// The mode is where the assembly stands. Values that it names are set, others are named only where
/// they are not 0; placements become values. Ways may then come out short of it.
Edited setMode(const AssemblyDocument& document, const std::string& name,
               const WrittenStanding& standing);

/// One joint of a mode that is given by values.
Edited setModeValue(const AssemblyDocument& document, const std::string& name,
                    const std::string& joint, const DocumentValue& value);

}  // namespace swingroom::edits
