#pragma once

#include <string>

#include "app/edits/mode_edits.h"

/// That an edit leaves a document which can be read, or is refused with the reason.
namespace swingroom::edits {

/// Everything that would keep the document from being read, its meshes apart.
Problems mistakesOf(const AssemblyDocument& document);

/// `changed`, if it can be read or has no more mistakes than `before` had, so that a document with
/// several can be mended one by one.
/// @param where  What is edited, for the refusal: `joint "neck"`.
/// @returns Else what would be wrong, its place in words.
Edited soundEdit(const AssemblyDocument& before, AssemblyDocument changed,
                 const std::string& where);
/// The same of an edit that takes more with it.
Outcome<Removal> soundRemoval(const AssemblyDocument& before, Removal removal,
                              const std::string& where);

/// Ways of `changed` that were whole before and come short now get what is missing as a last step.
/// @returns A clause for each such way.
std::vector<std::string> keepWhole(const AssemblyDocument& before, AssemblyDocument& changed);

/// What stands at a JSON pointer: `mode "robot"`, `way "rise", step 2`; empty: the file as a whole.
std::string placeInWords(const AssemblyDocument& document, const std::string& pointer);

/// `joint "neck"`, `part "head"`.
std::string jointCalled(const std::string& name);
std::string partCalled(const std::string& name);

}  // namespace swingroom::edits
