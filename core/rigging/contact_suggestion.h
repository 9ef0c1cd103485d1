#pragma once

#include <optional>
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
  Contact contact;     ///< Without a place: it covers the pair. Its reason is a guess in words.
  std::string reason;  ///< What was seen: "overlap 0.10 mm in deckhand; ...".
  std::optional<Vector3d> at_W;  ///< Where it was seen.
  std::size_t way = 0;           ///< Of `ways`, and its instant, when.
  double instant = 0;
};

/// Overlaps deeper than this are faults, mm.
constexpr double kMostMeantOverlapMm = 0.5;
/// Gaps up to this, between faces, are of parts that rest on each other, mm.
constexpr double kMostRestGapMm = 0.15;

/// What the findings of a check suggest. Overlap in a mode: a grip. Faces that meet in a mode, or
/// nearly: a rest. Overlap only while passing: a snap. Deeper overlaps and all else are left as the
/// faults that they are, and so is what a contact covers already. Looks only at pairs that
/// `results` has findings of. Nothing is changed by it.
/// @param ways, results  The same ways in the same order, as `sweep` gave them.
/// Deterministic, whatever `threads`.
std::vector<SuggestedContact> suggestContacts(const Assembly& assembly,
                                              const std::vector<Mode>& modes,
                                              const std::vector<Sequence>& ways,
                                              const std::vector<SequenceResult>& results,
                                              const AssemblyGeometry& geometry, unsigned threads);

}  // namespace swingroom
