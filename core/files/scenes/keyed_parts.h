#pragma once

#include "core/files/scenes/keyed_motion.h"
#include "core/files/sources/given_parts.h"
#include "core/files/sources/new_assembly.h"
#include "core/motion/joint_inference.h"

namespace swingroom {

/// Displacements from the first station, by station after the first, by part.
using Displacements = std::vector<std::vector<Pose>>;

/// Why keyed modes cannot be read of what is wished for, as far as is seen without reading it.
std::optional<Problem> keyedProblem(const NewAssemblyWish& wish);

/// The parts at the first station and how they get to the others.
std::vector<PartInTwoModes> keyedParts(const GivenParts& first, const Displacements& D);

bool nothingMoves(const Displacements& D);

/// All motion as it is seen from one part.
void seeFrom(std::size_t ground, Displacements& D);

/// What was found on the way through all stations.
struct KeptMotion {
  std::vector<std::string> found;
  Problems notes;
};

/// Puts joints, all modes and steps of a keyed way and rules for pairs into a document that has its
/// parts.
KeptMotion keepMotion(const KeyedMotion& motion, const std::vector<PartInTwoModes>& parts,
                      const Displacements& D, const InferredMotion& inferred,
                      AssemblyDocument& document);

}  // namespace swingroom
