#include "core/store/kept_check.h"

#include "core/base/parallel.h"
#include "core/store/pair_record.h"

namespace swingroom {

KeptCheck::KeptCheck(const Assembly& assembly, const std::vector<Mode>& modes,
                     const SweepSettings& settings, ResultStore* store)
    : assembly_(assembly), modes_(modes), settings_(settings), store_(store) {
  if (store) digests_ = store->meshDigests().of(assembly, settings.threads);
}

PairKey KeptCheck::keyOf(const Sequence& sequence, PartId a, PartId b) const {
  return swingroom::keyOf({&assembly_, &modes_, &sequence, &settings_, a, b}, digests_);
}

std::optional<PairResult> KeptCheck::find(const Sequence& sequence, PartId a, PartId b) const {
  if (!store_) return std::nullopt;
  const PairKey key = keyOf(sequence, a, b);
  const auto record = store_->find(digests_.at(a.index), key.digest);
  if (!record) return std::nullopt;
  auto result = fromRecord(*record, a, b, key.joints);
  if (result) placeInWorld(assembly_, sequence, *result);
  return result;
}

PairResult KeptCheck::check(const Sequence& sequence, PartId a, PartId b,
                            const AssemblyGeometry& geometry, const WorkMonitor& monitor) const {
  PairResult result =
      checkPairAlone(assembly_, modes_, sequence, geometry, a, b, settings_, monitor);
  if (monitor.cancelled()) return result;
  if (store_) {
    const PairKey key = keyOf(sequence, a, b);
    store_->keep(digests_.at(a.index), key.digest, toRecord(result, key.joints));
  }
  placeInWorld(assembly_, sequence, result);
  return result;
}

namespace {

/// One pair of one way.
struct PairJob {
  const Sequence* way = nullptr;
  PairResult* result = nullptr;  ///< Says which pair, and takes what comes out.
};

std::vector<PairResult> pairsOf(const Assembly& assembly) {
  std::vector<PairResult> pairs;
  for (std::size_t a = 0; a < assembly.parts().size(); ++a) {
    for (std::size_t b = a + 1; b < assembly.parts().size(); ++b) {
      if (!hasSurface(assembly.parts()[a]) || !hasSurface(assembly.parts()[b])) continue;
      pairs.emplace_back().a = PartId{a};
      pairs.back().b = PartId{b};
    }
  }
  return pairs;
}

/// Fills in what is known. @returns The rest.
std::vector<PairJob> lookUp(const KeptCheck& kept, const std::vector<PairJob>& jobs,
                            unsigned threads) {
  std::vector<char> known(jobs.size(), false);
  parallelFor(jobs.size(), threads, [&](std::size_t i) {
    const auto& [way, result] = jobs[i];
    auto found = kept.find(*way, result->a, result->b);
    known[i] = found.has_value();
    if (found) *result = std::move(*found);
  });
  std::vector<PairJob> rest;
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    if (!known[i]) rest.push_back(jobs[i]);
  }
  return rest;
}

}  // namespace

std::vector<SequenceResult> sweepKept(const Assembly& assembly, const std::vector<Mode>& modes,
                                      const std::vector<Sequence>& ways,
                                      const SweepSettings& settings, ResultStore* store,
                                      WorkMonitor& monitor) {
  std::vector<SequenceResult> results;
  for (const Sequence& way : ways)
    results.push_back({way.name, way.from, way.to, pairsOf(assembly)});
  std::vector<PairJob> jobs;
  for (std::size_t w = 0; w < ways.size(); ++w) {
    for (PairResult& pair : results[w].pairs) jobs.push_back({&ways[w], &pair});
  }
  monitor.start(jobs.size());
  const KeptCheck kept(assembly, modes, settings, store);
  const std::vector<PairJob> rest = store ? lookUp(kept, jobs, settings.threads) : jobs;
  if (rest.size() < jobs.size()) monitor.advance(jobs.size() - rest.size());
  std::vector<bool> wanted(assembly.parts().size(), false);
  for (const PairJob& job : rest) wanted[job.result->a.index] = wanted[job.result->b.index] = true;
  const AssemblyGeometry geometry = prepareGeometryOf(wanted, assembly, settings.threads);
  parallelFor(rest.size(), settings.threads, [&](std::size_t i) {
    if (monitor.cancelled()) return;
    const auto& [way, result] = rest[i];
    *result = kept.check(*way, result->a, result->b, geometry, monitor);
    monitor.advance();
  });
  if (store) store->save();
  return results;
}

}  // namespace swingroom
