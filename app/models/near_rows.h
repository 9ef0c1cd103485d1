#pragma once

#include <QString>
#include <optional>
#include <vector>

#include "app/session/choice.h"
#include "app/session/scene.h"
#include "core/sweep/result.h"

namespace swingroom {

/// A pair that is near another as the assembly stands now.
struct NearRow {
  PartPair pair;
  QString names;                   ///< "arm_left, funnel"
  QString figure;                  ///< "0.34 mm"
  std::optional<Verdict> verdict;  ///< Clash or tight now; none: the required gap is there now.

  bool operator==(const NearRow&) const = default;
};

/// The nearest first. Left out are pairs that are allowed, fixed to each other, or may touch by a
/// contact somewhere: those are for the check to judge.
std::vector<NearRow> nearRows(const Scene& scene, const std::vector<StandingGap>& near,
                              std::size_t most);

}  // namespace swingroom
