#pragma once

#include <string>
#include <vector>

#include "core/assembly/assembly.h"
#include "core/motion/sequence.h"
#include "core/sweep/part_geometry.h"
#include "core/sweep/result.h"

namespace swingroom {

/// Touch or overlap that looks intended, and what it was told from.
struct SuggestedContact {
  PartId a, b;
  Contact contact;     ///< Its reason is a plain guess: the maker knows better.
  std::string reason;  ///< What was seen: "overlap 0.10 mm in deckhand, at the same place ..."
};

/// What the findings of a check suggest: an overlap of up to 0.5 mm in a mode is a grip, faces that
/// meet in a mode are a rest, an overlap of up to 0.5 mm only while passing is a snap. Deeper ones
/// are faults. Nothing is changed by it.
/// @param ways, results  The same ways in the same order, as `sweep` gave them.
/// Deterministic, whatever `threads`.
std::vector<SuggestedContact> suggestContacts(const Assembly& assembly,
                                              const std::vector<Mode>& modes,
                                              const std::vector<Sequence>& ways,
                                              const std::vector<SequenceResult>& results,
                                              const AssemblyGeometry& geometry, unsigned threads);

}  // namespace swingroom
