#include "core/measure/stage_gaps.h"

#include <algorithm>

#include "core/base/parallel.h"
#include "core/measure/stage_check.h"
#include "core/store/kept_check.h"

namespace swingroom {
namespace {

struct Asked {
  std::size_t way, pair;
};

std::vector<PairResult> pairsWith(const Assembly& assembly, PartId part) {
  std::vector<PairResult> pairs;
  for (std::size_t i = 0; i < assembly.parts().size(); ++i) {
    if (i == part.index || !hasSurface(assembly.parts()[i])) continue;
    PairResult& pair = pairs.emplace_back();
    pair.a = std::min(part, PartId{i});
    pair.b = std::max(part, PartId{i});
  }
  return pairs;
}

}  // namespace

std::vector<SequenceResult> checkPairsOf(const LoadedAssembly& loaded, PartId part,
                                         const SweepSettings& settings, ResultStore* store,
                                         WorkMonitor& monitor) {
  const Assembly& assembly = loaded.assembly;
  std::vector<SequenceResult> results;
  if (!hasSurface(assembly.part(part))) return results;
  const std::vector<Sequence> ways = waysToCheck(loaded.modes, loaded.sequences);
  for (const Sequence& way : ways) {
    results.push_back({way.name, way.from, way.to, pairsWith(assembly, part)});
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

Outcome<std::vector<GapChange>> stageGaps(const AssemblyDocument& document,
                                          const std::filesystem::path& file, const std::string& part,
                                          const MeshSource& source, ResultStore* store,
                                          WorkMonitor& monitor) {
  std::vector<std::vector<SequenceResult>> results;
  for (const std::string& stage : {kBlockStage, kDetailStage}) {
    AssemblyDocument mix = document;
    for (DocumentPart& written : mix.parts) {
      if (written.name == part) written.use = stage;
    }
    const Outcome<LoadedAssembly> loaded = loadAssembly(mix, file, source);
    if (!loaded) return loaded.problems();
    const auto id = loaded->assembly.findPart(part);
    if (!id) return Problem{part, "is no part of the assembly", ""};
    SweepSettings settings;
    settings.threads = source.threads;
    settings.resolutionMm = loaded->assembly.resolutionMm();
    results.push_back(checkPairsOf(*loaded, *id, settings, store, monitor));
    if (monitor.cancelled()) break;
  }
  if (monitor.cancelled()) return Problem{part, "was not compared: stopped", ""};
  return gapChanges(results[0], results[1]);
}

}  // namespace swingroom
