#pragma once

#include <optional>
#include <vector>

#include "app/session/scene.h"
#include "core/sweep/result.h"

namespace swingroom {

/// The same parts at the same places, on the same joints, checked as finely. Their surfaces, what
/// they are called, their colours and ranges do not count.
bool sameAssembly(const Scene& before, const Scene& now);

/// Which results of one scene still hold in another that is an edit of it, or has other surfaces of
/// some parts. Names do not count: modes and ways are the same where everything stands and moves
/// the same.
class KeptResults {
 public:
  /// The scenes outlive it.
  KeptResults(const Scene& before, const Scene& now);

  /// The way of `before` that moves as this one of `now`; none, or not all modes of `now` were in
  /// `before`: nothing is known of it.
  std::optional<std::size_t> wayBefore(std::size_t way) const { return ways_.at(way); }
  /// A pair's result in `wayBefore(way)` as it is now; none: what is asked of the pair differs.
  std::optional<PairResult> kept(std::size_t way, const PairResult& result) const;

  /// Whether the same is asked of the pair in a way before and one now.
  bool sameRule(std::size_t wayBefore, std::size_t way, PartId a, PartId b) const;
  bool sameSurface(PartId part) const {
    return before_.geometry[part.index] == now_.geometry[part.index];
  }

 private:
  const Scene& before_;
  const Scene& now_;
  std::vector<std::size_t> modesBefore_;          ///< By mode of `now`.
  std::vector<std::optional<std::size_t>> ways_;  ///< By way of `now`.
};

/// Whether what is asked of one part against all others, in every way, is the same in both: then
/// whatever was worked out of it holds, by the same ids.
bool sameAskedOf(PartId part, const Scene& before, const Scene& now);

}  // namespace swingroom
