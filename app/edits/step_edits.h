#pragma once

#include "app/edits/way_edits.h"

/// Edits of a way's steps. Steps are named by their way and position from 0; a way without steps
/// has one, at 0, and gets it written where an edit needs it. Values are absolute, so that steps
/// after the changed one still end where they did; what the way is short of then, `shortBy` tells
/// and `finishWay` adds.
namespace swingroom::edits {

/// Which step of which way.
struct StepAt {
  std::string way;
  std::size_t step = 0;
};

/// In the way and in contacts, which go on covering it.
Edited renameStep(const AssemblyDocument& document, const StepAt& at, const std::string& wanted);

/// A step before position `at.step` (the number of steps: at the end) that moves what stands
/// elsewhere than where it begins.
Edited addStep(const AssemblyDocument& document, const StepAt& at, const std::string& name,
               const WrittenStanding& standing);

/// To another position among the steps.
Edited moveStep(const AssemblyDocument& document, const StepAt& at, std::size_t to);

/// Two steps of one: the first ends with the values `part` (0 to 1, ends excluded) of the way
/// through. Contacts that cover the step cover both.
Edited splitStep(const AssemblyDocument& document, const StepAt& at, double part);

/// One step of this and the next, with the first one's name. Refused where a replug is between, one
/// goes together and the other free, or contacts cover only one of the two.
Edited joinSteps(const AssemblyDocument& document, const StepAt& at);

/// With the contacts that covered nothing else.
Outcome<Removal> removeStep(const AssemblyDocument& document, const StepAt& at);

/// The step moves what stands elsewhere than at its start, to where it stands.
Edited setStepEnd(const AssemblyDocument& document, const StepAt& at,
                  const WrittenStanding& standing);

Edited setStepOrder(const AssemblyDocument& document, const StepAt& at, DocumentOrder order);

/// Where a joint stands at the step's end; a joint that it did not move, it moves now.
Edited setMove(const AssemblyDocument& document, const StepAt& at, const std::string& joint,
               const DocumentValue& value);
/// The step does not move that joint any more.
Edited removeMove(const AssemblyDocument& document, const StepAt& at, const std::string& joint);
/// What one step did with a joint, another does.
Edited giveMove(const AssemblyDocument& document, const StepAt& at, const std::string& joint,
                std::size_t to);

}  // namespace swingroom::edits
