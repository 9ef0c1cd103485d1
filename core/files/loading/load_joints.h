#pragma once

#include <vector>

#include "core/assembly/assembly.h"
#include "core/files/document/assembly_document.h"
#include "core/files/document/document_problems.h"
#include "core/files/loading/name_index.h"

namespace swingroom {

/// The joints of the file, by their position in it; one that makes no sense is told and half
/// filled.
std::vector<Joint> loadJoints(const AssemblyDocument& document, const NameIndex& parts,
                              const NameIndex& jointNames, DocumentProblems& problems);

/// The joints that follow another, each after the one that it follows.
/// Tells rings of followers; those are left out.
std::vector<JointId> followersInOrder(const std::vector<Joint>& joints, DocumentProblems& problems);

/// What `joint` must stand at where its leader stands in `values`.
JointValue followedValue(const Joint& joint, const std::vector<JointValue>& values);

/// Tells each ring of parts that hang on each other in every mode.
void checkRings(const Assembly& assembly, DocumentProblems& problems);

/// The parts of a ring of mounts that hold in `configuration`, as "a on b on a"; empty: no ring.
std::string ringText(const Assembly& assembly, const Configuration& configuration);

}  // namespace swingroom
