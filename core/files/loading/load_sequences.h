#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/files/loading/load_modes.h"
#include "core/motion/sequence.h"

namespace swingroom {

/// How the steps of a sequence are called: by their names, else "step 3". The only step of a
/// sequence without steps is called as the sequence is.
std::vector<std::string> stepNamesOf(const DocumentSequence& sequence);

/// The sequences of the file; fewer than the file has if something is wrong and told.
///
/// A replug hangs a part on the mount that has the named joint. Joints of the part's mounts that no
/// step of the sequence moves then stand where the `to` mode wants them: the hand that plugs the
/// part sets them. Joints that a step moves, before or after, follow the steps alone.
std::vector<Sequence> loadSequences(const MotionContext& context, const AssemblyDocument& document,
                                    const std::vector<std::optional<Mode>>& modes);

}  // namespace swingroom
