#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "core/assembly/assembly.h"
#include "core/motion/sequence.h"
#include "tests/random/random_parts.h"

namespace swingroom::random_suite {

enum class MotionKind { hinge, slide, chain, coaxial, thin, ball, curving, free, count };
const char* nameOf(MotionKind kind);
/// Of a case: the kinds take turns.
MotionKind kindOf(int number);

/// Parts, joints between them and one sequence.
struct RandomCase {
  int number = 0;
  std::uint64_t seed = 0;
  MotionKind kind = MotionKind::hinge;
  std::string description;  ///< One line.
  AssemblyParts parts;
  std::vector<Mode> modes;
  Sequence sequence;

  Assembly assembly() const { return Assembly(parts); }
};

/// Case `number` of the suite that `suiteSeed` names: the same whatever other cases are made.
RandomCase randomCase(std::uint64_t suiteSeed, int number);

/// Writes the case as an assembly file and its meshes, for looking at it. Angles and placements are
/// rounded in the file's way: it need not come out the same to the last bit.
void writeCase(const RandomCase& c, const std::filesystem::path& folder);

}  // namespace swingroom::random_suite
