#pragma once

#include <cstddef>

#include "tests/support/mechanism.h"

/// Figures of bumpy blocks on a tree of hinges, slides and balls, about 100 mm tall; for the
/// benchmarks. Mesh by mesh the same for the same arguments.
namespace swingroom::bench {

/// A figure of 16 parts that folds itself up: stand, cross the arms, sit, pull the feet in.
Mechanism figureOf16(std::size_t trianglesEach);

/// The same of 40 parts: plates, wrists, knees, ankles, a pack with wings.
Mechanism figureOf40(std::size_t trianglesEach);

/// A crawler of `parts` parts, four a segment (body, two legs, back plate): its body bends, its
/// legs swing, its plates open. It grows by getting longer, so that the pairs that are near grow
/// with the parts, not with the pairs.
Mechanism crawlerOf(std::size_t parts, std::size_t trianglesEach);

}  // namespace swingroom::bench
