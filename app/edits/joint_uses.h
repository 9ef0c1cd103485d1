#pragma once

#include <functional>
#include <set>
#include <string>
#include <vector>

#include "core/files/document/assembly_document.h"

/// All places of a document that name a joint: modes, steps, followers, mounts, variants. What
/// edits of joints share. Clauses tell what else went, as `Removal::also` has them.
namespace swingroom::edits {

/// Calls `change` with every value of that joint, in modes and steps.
void forEachValue(AssemblyDocument& document, const std::string& joint,
                  const std::function<void(DocumentValue&)>& change);

/// Takes the joint out of modes' values and steps' moves; steps that then move nothing go.
std::vector<std::string> dropValues(AssemblyDocument& document, const std::string& joint);

/// Names the joint in every mode that is given by values and in which it holds: at 0, or where it
/// can stand next to that. Values that are there stay.
void nameAtZero(AssemblyDocument& document, const DocumentJoint& joint);

/// The joint moves as it did, by values of its own in modes and steps.
void followNoMore(AssemblyDocument& document, const std::string& joint);
/// The same of every joint that follows this one.
std::vector<std::string> freeFollowers(AssemblyDocument& document, const std::string& joint);

/// Takes steps out of all ways, with the contacts that covered nothing else.
std::vector<std::string> removeSteps(
    AssemblyDocument& document,
    const std::function<bool(const DocumentSequence&, std::size_t step)>& isGone);

/// Makes modes say which mount holds each part that has several, where they do not: the one they
/// said, else the first. What parts with one mount need not say goes, and so do steps of the hand
/// that then put a part where it hangs.
std::vector<std::string> settleMounts(AssemblyDocument& document);

/// Modes and steps that hang the part by `joint` do it by another joint of the same mount.
/// Call before the joint goes.
void nameOtherOfMount(AssemblyDocument& document, const DocumentJoint& joint);

/// Takes the joint out of every place that names it; mounts are to be settled after it.
std::vector<std::string> takeJointOut(AssemblyDocument& document, const std::string& name);

/// The parts' joints of one parent each, by their first, in file order.
std::vector<std::string> firstOfMounts(const AssemblyDocument& document, const std::string& part);

/// -v, and 0 for 0.
double negative(double v);
ThreeNumbers negative(const ThreeNumbers& v);

}  // namespace swingroom::edits
