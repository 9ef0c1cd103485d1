#pragma once

#include <string>
#include <vector>

#include "core/base/outcome.h"
#include "core/files/document/assembly_document.h"
#include "core/motion/joint_inference.h"
#include "core/motion/registration.h"

namespace swingroom {

/// What two folders told, for the sentences about it.
struct FoundMotion {
  const AssemblyDocument& document;  ///< With joints, in the order of `motion.joints`.
  const InferredMotion& motion;
  const std::vector<PartInTwoModes>& parts;
  const std::vector<double>& misfitsMm;  ///< By part, as `misfitsOf` gives them.
};

/// Sentences on groups, joints, zones and how well all fits.
std::vector<std::string> foundSentences(const FoundMotion& found);

/// What was guessed, what could be otherwise, and what does not fit, each with its size.
Problems foundNotes(const FoundMotion& found);

/// "1 part", "3 parts".
std::string counted(std::size_t count, const std::string& noun);

}  // namespace swingroom
