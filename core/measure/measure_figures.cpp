#include "core/measure/measure_figures.h"

#include <algorithm>
#include <map>
#include <set>

#include "core/base/parallel.h"
#include "core/files/file_hash.h"
#include "core/measure/pair_curve.h"

namespace swingroom {
namespace {

constexpr std::size_t kCardSamples = 160, kOtherSamples = 64;
/// Depths cost a hundred times what gaps do. In all cards together, and at most and at least in
/// one.
constexpr std::size_t kDepthSamples = 240, kMostDepths = 24, kFewestDepths = 8;

/// The worst occurrences of the findings that are shown in full, and how closely to look at each.
struct Cards {
  std::set<std::pair<std::size_t, std::size_t>> which;  ///< Way, pair.
  std::size_t depthsEach = kMostDepths;

  Cards(const std::vector<Finding>& findings, std::size_t most) {
    std::size_t clashes = 0;
    for (std::size_t i = 0; i < std::min(most, findings.size()); ++i) {
      which.insert({findings[i].where.front().way, findings[i].where.front().pair});
      clashes += findings[i].verdict == Verdict::clash;
    }
    if (clashes > 0) depthsEach = std::clamp(kDepthSamples / clashes, kFewestDepths, kMostDepths);
  }
};

PairFigures figuresOf(const CheckReport& report, const Occurrence& where,
                      const AssemblyGeometry& geometry, const Cards& cards,
                      const WorkMonitor* monitor) {
  const CheckedPair checked{&report.loaded->assembly, &report.ways[where.way], &geometry,
                            &resultOf(report, where), report.resolutionMm};
  const bool card = cards.which.contains({where.way, where.pair});
  PairFigures figures;
  figures.curve = measureCurve(
      checked, card ? CurveDetail{kCardSamples, cards.depthsEach} : CurveDetail{kOtherSamples, 0},
      monitor);
  figures.deepPointOn = deepPointOf(checked);
  return figures;
}

std::vector<MeshFigure> meshesOf(const CheckReport& report, const AssemblyDocument& document,
                                 const std::filesystem::path& folder) {
  std::map<std::string, std::size_t> known;
  std::vector<MeshFigure> meshes;
  for (std::size_t p = 0; p < document.parts.size(); ++p) {
    const auto stage = document.parts[p].stages.find(document.parts[p].use);
    const auto& mesh = report.loaded->assembly.part(PartId{p}).mesh;
    if (stage == document.parts[p].stages.end() || !mesh) continue;
    const auto [slot, isNew] = known.try_emplace(stage->second, meshes.size());
    if (isNew) {
      MeshFigure figure;
      figure.file = stage->second;
      figure.triangles = mesh->triangles.size();
      const std::string path = (folder / stage->second).lexically_normal().string();
      const auto hash = sha256Of(path);
      figure.sha256 = hash ? *hash : "cannot be read any more";
      for (const Problem& note : report.loaded->notes) {
        if (note.where == path) figure.notes.push_back(note.what);
      }
      meshes.push_back(figure);
    }
    meshes[slot->second].parts.push_back(PartId{p});
  }
  return meshes;
}

}  // namespace

ReportFigures measureFigures(const CheckReport& report, const AssemblyDocument& document,
                             const std::filesystem::path& folder, const AssemblyGeometry& geometry,
                             const std::vector<Finding>& findings, std::size_t cards,
                             unsigned threads, const WorkMonitor* monitor) {
  const Cards shown(findings, cards);
  ReportFigures figures;
  std::vector<Occurrence> jobs;
  for (std::size_t w = 0; w < report.results.size(); ++w) {
    figures.pairs.emplace_back(report.results[w].pairs.size());
    for (std::size_t p = 0; p < report.results[w].pairs.size(); ++p) jobs.push_back({w, p});
  }
  parallelFor(jobs.size(), threads, [&](std::size_t i) {
    if (isCancelled(monitor)) return;
    figures.pairs[jobs[i].way][jobs[i].pair] =
        figuresOf(report, jobs[i], geometry, shown, monitor);
  });
  if (isCancelled(monitor)) return figures;
  figures.contacts = measureContacts(report, geometry);
  figures.meshes = meshesOf(report, document, folder);
  return figures;
}

}  // namespace swingroom
