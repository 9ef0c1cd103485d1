#pragma once

#include "app/edits/edit_names.h"
#include "app/edits/written_motion.h"

/// Names of steps, which contacts cover by name in whichever way has them.
namespace swingroom::edits {

/// Why contacts would come to cover other steps than before if a step of `way` were called `to`;
/// none: they would not. A name that another way has too is fine where contacts say the same of
/// both.
std::optional<Problem> stepRenameProblem(const AssemblyDocument& document, const std::string& way,
                                         const std::string& from, const std::string& to);

/// Contacts that cover a step of `way` by one name cover it by another. Call before the step is
/// renamed: where another way has a step of the old name, contacts keep that name too.
void renameInContacts(AssemblyDocument& document, const std::string& way, const std::string& from,
                      const std::string& to);

/// Whether a step of that name is in another way.
bool isElsewhere(const AssemblyDocument& document, const std::string& way, const std::string& step);

/// Of all ways: a new step with a name of its own is covered by no contact.
std::set<std::string> allStepNames(const AssemblyDocument& document);

/// Gives names to steps that have none and that contacts cover as "step 3", so that they keep them
/// when steps move.
void fixStepNames(const AssemblyDocument& document, DocumentSequence& way);

/// Writes the only step of a way without steps as a step, called as the way is.
void nameOnlyStep(const WrittenMotion& motion, DocumentSequence& way);

}  // namespace swingroom::edits
