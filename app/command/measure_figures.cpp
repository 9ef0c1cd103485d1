#include "app/command/measure_figures.h"

#include <algorithm>
#include <map>

#include "core/base/parallel.h"
#include "core/files/file_hash.h"
#include "core/report/html/sections.h"
#include "core/tree/point_query.h"

namespace swingroom {
namespace {

constexpr std::size_t kFindingSamples = 240, kOtherSamples = 120;

/// Evenly over each step, with every step's ends, and the instants that the result names.
std::vector<double> instantsFor(const Sequence& way, const PairResult& pair) {
  const std::size_t steps = way.steps.size();
  const std::size_t wanted = pair.verdict < Verdict::clear ? kFindingSamples : kOtherSamples;
  const std::size_t each = (wanted + steps - 1) / steps;
  std::vector<double> instants;
  for (std::size_t i = 0; i <= each * steps; ++i) {
    instants.push_back(static_cast<double>(i) / static_cast<double>(each * steps));
  }
  if (pair.gap.instant) instants.push_back(*pair.gap.instant);
  for (const Stretch& stretch : pair.stretches) {
    instants.insert(instants.end(), {stretch.from, stretch.to});
    if (stretch.deepestAt) instants.push_back(*stretch.deepestAt);
  }
  std::sort(instants.begin(), instants.end());
  instants.erase(std::unique(instants.begin(), instants.end()), instants.end());
  return instants;
}

DeepPointOn deepPointOf(const CheckReport& report, const Sequence& way,
                        const AssemblyGeometry& geometry, const PairResult& pair) {
  if (pair.verdict != Verdict::clash || !pair.gap.points_W || !pair.gap.instant)
    return DeepPointOn::unknown;
  const auto poses = posesOf(report.loaded->assembly,
                             configurationAt(report.loaded->assembly, way, *pair.gap.instant));
  const auto distance = [&](PartId part) {
    const Vector3d p = poses[part.index].inverse() * (*pair.gap.points_W)[0];
    const auto nearest = closestPoint(geometry[part.index]->surface->tree, p);
    return nearest ? nearest->distanceMm : std::numeric_limits<double>::infinity();
  };
  return distance(pair.a) <= distance(pair.b) ? DeepPointOn::a : DeepPointOn::b;
}

PairFigures figuresOf(const CheckReport& report, std::size_t way, const AssemblyGeometry& geometry,
                      const PairResult& pair) {
  PairFigures figures;
  const Sequence& sequence = report.ways[way];
  const bool near = pair.gap.upperMm || !pair.stretches.empty();
  if (near && !html::standsStill(sequence)) {
    GapCurveQuestion question;
    question.instants = instantsFor(sequence, pair);
    question.capMm = pair.requiredGapMm + 1.5;
    question.resolutionMm = report.resolutionMm;
    question.depthsToo = deepestMm(pair) > 0;
    figures.curve = gapCurve(report.loaded->assembly, sequence, geometry, pair.a, pair.b, question);
  }
  figures.deepPointOn = deepPointOf(report, sequence, geometry, pair);
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
                             unsigned threads) {
  ReportFigures figures;
  std::vector<Occurrence> jobs;
  for (std::size_t w = 0; w < report.results.size(); ++w) {
    figures.pairs.emplace_back(report.results[w].pairs.size());
    for (std::size_t p = 0; p < report.results[w].pairs.size(); ++p) jobs.push_back({w, p});
  }
  parallelFor(jobs.size(), threads, [&](std::size_t i) {
    const auto [way, pair] = jobs[i];
    figures.pairs[way][pair] = figuresOf(report, way, geometry, report.results[way].pairs[pair]);
  });
  figures.contacts = measureContacts(report, geometry);
  figures.meshes = meshesOf(report, document, folder);
  return figures;
}

}  // namespace swingroom
