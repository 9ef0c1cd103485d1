#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "core/store/pair_key.h"
#include "core/store/result_store.h"

namespace swingroom {

/// Checks of pairs that are looked up before they are made: the same result, bit by bit, as
/// `checkPair` gives. Const from several threads; what it is given must outlive it.
class KeptCheck {
 public:
  /// @param store  Null: nothing is looked up or kept.
  KeptCheck(const Assembly& assembly, const std::vector<Mode>& modes, const SweepSettings& settings,
            ResultStore* store);

  /// None: it has to be checked.
  std::optional<PairResult> find(const Sequence& sequence, PartId a, PartId b) const;
  /// Checks the pair and keeps the result, unless the monitor says that it was cancelled: then the
  /// result means nothing.
  /// @param geometry  Of the two parts at least.
  PairResult check(const Sequence& sequence, PartId a, PartId b, const AssemblyGeometry& geometry,
                   const WorkMonitor& monitor) const;

 private:
  PairKey keyOf(const Sequence& sequence, PartId a, PartId b) const;

  const Assembly& assembly_;
  const std::vector<Mode>& modes_;
  SweepSettings settings_;
  ResultStore* store_;
  std::vector<Digest> digests_;  ///< By PartId.
};

/// `sweep` over several ways, with kept results. Only parts of pairs that have to be checked are
/// made ready, so that nothing is spent on what has not changed.
/// @param store  May be null.
std::vector<SequenceResult> sweepKept(const Assembly& assembly, const std::vector<Mode>& modes,
                                      const std::vector<Sequence>& ways,
                                      const SweepSettings& settings, ResultStore* store,
                                      WorkMonitor& monitor);

}  // namespace swingroom
