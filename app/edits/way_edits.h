#pragma once

#include "app/edits/mode_edits.h"

/// Edits of ways as a whole.
namespace swingroom::edits {

/// One step in which every joint goes together, so that the way is whole at once. A part that hangs
/// elsewhere in the last mode is moved over first, by a replug step of its own.
Edited addWay(const AssemblyDocument& document, const std::string& name, const std::string& from,
              const std::string& to);

Edited renameWay(const AssemblyDocument& document, const std::string& name,
                 const std::string& wanted);

/// Behind the first, with the same names of steps: contacts that cover those cover these.
Edited duplicateWay(const AssemblyDocument& document, const std::string& name,
                    const std::string& copy);

/// The way back as one more way: the steps from last to first, each to where it came from.
/// @param name  Of the way back; free.
Edited reverseWay(const AssemblyDocument& document, const std::string& way,
                  const std::string& name);

/// With the contacts that covered nothing but its steps.
Outcome<Removal> removeWay(const AssemblyDocument& document, const std::string& name);

/// Adds what the steps leave short of the last mode as a step of its own, called "finish", and
/// before it a replug step for each part that hangs elsewhere. Nothing is short: no change.
Edited finishWay(const AssemblyDocument& document, const std::string& way);

/// What the steps leave short, one clause a joint: `"wrist" at 0 mm, 10 mm short`. Empty: nothing,
/// or the modes and joints cannot be read.
std::vector<std::string> shortBy(const AssemblyDocument& document, const std::string& way);

}  // namespace swingroom::edits
