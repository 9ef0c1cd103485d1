#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/files/document/assembly_document.h"
#include "core/room/space/room_space.h"

namespace CLI {
class App;
}

namespace swingroom {

/// What of a part's spaces is to be written, as it was typed.
struct SpaceWords {
  std::string spaceFile, sweptFile;
  double pitchMm = 0.25;
  std::vector<std::string> within;
  std::string in = "ground";

  bool isAsked() const { return !spaceFile.empty() || !sweptFile.empty(); }
  /// What is wrong with the words, before any file is read.
  std::optional<Problem> problem() const;
};

/// Adds `--space`, `--swept`, `--pitch`, `--within` and `--in`.
void addSpaceOptions(CLI::App& room, SpaceWords& words);

/// Writes what is asked for and says in a sentence each what it is.
/// Meshes lie as the mesh files of the parts do in whose frames they are: before `mirror` and `scale`.
/// @param document  What the subject was made of.
/// @returns The exit code.
int runSpace(const SpaceWords& words, const SpaceSubject& subject, const AssemblyDocument& document,
             unsigned threads);

}  // namespace swingroom
