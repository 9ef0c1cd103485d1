#include "core/measure/stage_gaps.h"

#include <stdexcept>

#include "core/base/parallel.h"
#include "core/store/kept_check.h"

namespace swingroom {
namespace {

struct Asked {
  std::size_t way, pair;
};

std::vector<PairResult> pairsWith(const Assembly& assembly, const std::vector<bool>& parts) {
  std::vector<PairResult> pairs;
  for (std::size_t a = 0; a < assembly.parts().size(); ++a) {
    for (std::size_t b = a + 1; b < assembly.parts().size(); ++b) {
      if (!parts[a] && !parts[b]) continue;
      if (!hasSurface(assembly.parts()[a]) || !hasSurface(assembly.parts()[b])) continue;
      PairResult& pair = pairs.emplace_back();
      pair.a = PartId{a};
      pair.b = PartId{b};
    }
  }
  return pairs;
}

}  // namespace

std::vector<SequenceResult> checkPairsOf(const LoadedAssembly& loaded, const std::vector<bool>& parts,
                                         const SweepSettings& settings, ResultStore* store,
                                         WorkMonitor& monitor) {
  const Assembly& assembly = loaded.assembly;
  std::vector<SequenceResult> results;
  const std::vector<Sequence> ways = waysToCheck(loaded.modes, loaded.sequences);
  for (const Sequence& way : ways) {
    results.push_back({way.name, way.from, way.to, pairsWith(assembly, parts)});
  }
  const KeptCheck kept(assembly, loaded.modes, settings, store);
  std::vector<Asked> open;
  std::vector<bool> wanted(assembly.parts().size(), false);
  for (std::size_t w = 0; w < ways.size(); ++w) {
    for (std::size_t p = 0; p < results[w].pairs.size(); ++p) {
      PairResult& pair = results[w].pairs[p];
      if (auto known = kept.find(ways[w], pair.a, pair.b)) {
        pair = std::move(*known);
        continue;
      }
      open.push_back({w, p});
      wanted[pair.a.index] = wanted[pair.b.index] = true;
    }
  }
  monitor.start(open.size());
  const AssemblyGeometry geometry = prepareGeometryOf(wanted, assembly, settings.threads);
  parallelFor(open.size(), settings.threads, [&](std::size_t i) {
    if (monitor.cancelled()) return;
    PairResult& pair = results[open[i].way].pairs[open[i].pair];
    pair = kept.check(ways[open[i].way], pair.a, pair.b, geometry, monitor);
    monitor.advance();
  });
  if (store) store->save();
  return results;
}

Outcome<std::vector<GapChange>> gapsBetween(const AssemblyDocument& before,
                                            const AssemblyDocument& after,
                                            const std::filesystem::path& file,
                                            const MeshSource& source, ResultStore* store,
                                            WorkMonitor& monitor) {
  if (before.parts.size() != after.parts.size()) {
    throw std::invalid_argument("gapsBetween: the documents have other parts");
  }
  std::vector<bool> parts(before.parts.size());
  for (std::size_t i = 0; i < parts.size(); ++i) parts[i] = before.parts[i].use != after.parts[i].use;
  std::vector<std::vector<SequenceResult>> results;
  for (const AssemblyDocument* mix : {&before, &after}) {
    const Outcome<LoadedAssembly> loaded = loadAssembly(*mix, file, source);
    if (!loaded) return loaded.problems();
    SweepSettings settings;
    settings.threads = source.threads;
    settings.resolutionMm = loaded->assembly.resolutionMm();
    results.push_back(checkPairsOf(*loaded, parts, settings, store, monitor));
    if (monitor.cancelled()) return Problem{file.string(), "was not compared: stopped", ""};
  }
  return gapChanges(results[0], results[1]);
}

}  // namespace swingroom
